import type { Harness } from "../model/index.ts";

/** The nodes that edges end at, each once. */
export function edgeEnds(harness: Harness, edges: readonly number[]): readonly number[] {
  const { from, to } = harness.index;
  return [...new Set(edges.flatMap((edge) => [from[edge] ?? -1, to[edge] ?? -1]))];
}

interface Parts {
  readonly edges: number[];
  readonly terminals: number[];
}

// Worked out once a harness; a harness never changes.
const known = new WeakMap<Harness, ReadonlyMap<string, Parts>>();

function partsOf(harness: Harness): ReadonlyMap<string, Parts> {
  const before = known.get(harness);
  if (before) return before;
  const parts = new Map<string, Parts>();
  const of = (component: string): Parts => {
    let entry = parts.get(component);
    if (!entry) parts.set(component, (entry = { edges: [], terminals: [] }));
    return entry;
  };
  harness.edges.forEach((edge, number) => {
    if (edge.kind === "element") of(edge.component.id).edges.push(number);
  });
  harness.nodes.forEach((node, number) => {
    if (node.kind === "stud" && node.stud.component !== undefined) of(node.stud.component).terminals.push(number);
    const device = node.kind === "contact" && node.half.id === "device" ? node.connector.component : undefined;
    if (device !== undefined) of(device).terminals.push(number);
  });
  known.set(harness, parts);
  return parts;
}

/** The edges that the elements of a component make. */
export function componentEdges(harness: Harness, id: string): readonly number[] {
  return partsOf(harness).get(id)?.edges ?? [];
}

/** Terminals of a component: its device contacts and studs, or, where it has none, what its elements end at outside. One group a terminal. */
export function componentTerminals(harness: Harness, id: string): readonly (readonly number[])[] {
  const terminals = partsOf(harness).get(id)?.terminals ?? [];
  const outside = edgeEnds(harness, componentEdges(harness, id)).filter((end) => harness.nodes[end]?.kind !== "inner");
  return (terminals.length > 0 ? terminals : outside).map((terminal) => [terminal]);
}
