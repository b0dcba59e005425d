import type { Harness } from "../model/index.ts";
import { railNodes } from "../trace/index.ts";

/** A net on the other side of an element, and the element. */
export interface Across {
  readonly to: number;
  readonly edge: number;
}

/**
 * For each net the nets on the other side of elements that lie outside control units; supply and ground nets of the machine are never
 * gone onto.
 *
 * @param harness The harness.
 * @param ofNode The net of a node.
 * @param without Kinds of element that are not crossed.
 */
export function netsAcross(
  harness: Harness,
  ofNode: Int32Array,
  without: readonly string[] = [],
): ReadonlyMap<number, readonly Across[]> {
  const rails = railNets(harness, ofNode);
  const across = new Map<number, Across[]>();
  const add = (from: number, to: number, edge: number): void => {
    if (rails.has(to) || from === to) return;
    const list = across.get(from);
    if (list) list.push({ to, edge });
    else across.set(from, [{ to, edge }]);
  };
  harness.edges.forEach((edge, number) => {
    if (edge.kind !== "element" || edge.component.kind === "module" || without.includes(edge.element.kind)) return;
    const from = ofNode[harness.index.from[number] ?? -1] ?? -1;
    const to = ofNode[harness.index.to[number] ?? -1] ?? -1;
    add(from, to, number);
    add(to, from, number);
  });
  return across;
}

/** The nets of the supply and the ground of the machine. */
export function railNets(harness: Harness, ofNode: Int32Array): ReadonlySet<number> {
  const rails = railNodes(harness);
  const nets = new Set<number>();
  ofNode.forEach((net, node) => {
    if (rails.supply[node] || rails.ground[node]) nets.add(net);
  });
  return nets;
}
