import { naturalOrder } from "../../base/index.ts";
import type { Connector, Harness, HarnessNode } from "../../harness-model/index.ts";

/**
 * Where the ways from a node go on that are not drawn: the first joint or part that each meets, each named once, in natural order.
 *
 * @param node Node number.
 * @param edges Numbers of the edges at it that are not drawn.
 */
export function stubNames(harness: Harness, node: number, edges: Iterable<number>): readonly string[] {
  const names = new Set<string>();
  for (const edge of edges) names.add(nameBeyond(harness, node, edge));
  return [...names].sort(naturalOrder);
}

function nameBeyond(harness: Harness, from: number, over: number): string {
  let node = from;
  let edge = over;
  const seen = new Set<number>();
  for (;;) {
    const found = harness.edges[edge];
    if (found?.kind === "element") {
      const only = found.component.elements.length === 1;
      return only ? found.component.id : `${found.component.id}.${found.element.id}`;
    }
    const { from: first, to: second } = harness.index;
    node = first[edge] === node ? (second[edge] ?? -1) : (first[edge] ?? -1);
    seen.add(edge);
    const here = harness.nodes[node];
    const next = onward(harness, node, edge);
    if (!here || here.kind !== "contact" || here.connector.component !== undefined || next === undefined)
      return here ? nodeName(harness, here) : "?";
    if (seen.has(next)) return nodeName(harness, here);
    edge = next;
  }
}

/** The one edge that goes on from a node; undefined where there is none or more than one. */
function onward(harness: Harness, node: number, before: number): number | undefined {
  const { offsets, arcEdges } = harness.index;
  const others = [...arcEdges.subarray(offsets[node], offsets[node + 1])].filter((edge) => edge !== before);
  return others.length === 1 ? others[0] : undefined;
}

function nodeName(harness: Harness, node: HarnessNode): string {
  if (node.kind === "contact") return contactName(harness, node.connector, node.cavity.id);
  return node.kind === "open-end" ? "open end" : node.key;
}

/**
 * Short name of a contact: part and cavity where the part has one connector only, else connector and cavity.
 *
 * @param cavity Id of the cavity.
 */
export function contactName(harness: Harness, connector: Connector, cavity: string): string {
  const owner = connector.component;
  if (owner === undefined) return `${connector.id}:${cavity}`;
  const own = [...harness.fitted.connectors.values()].filter((each) => each.component === owner);
  return own.length === 1 ? `${owner}:${cavity}` : `${connector.id}:${cavity}`;
}
