import type { Harness } from "../model/index.ts";

/** The nodes that edges end at, each once. */
export function edgeEnds(harness: Harness, edges: readonly number[]): readonly number[] {
  const { from, to } = harness.index;
  return [...new Set(edges.flatMap((edge) => [from[edge] ?? -1, to[edge] ?? -1]))];
}

/** The edges that the elements of a component make. */
export function componentEdges(harness: Harness, id: string): readonly number[] {
  return harness.edges.flatMap((edge, number) => (edge.kind === "element" && edge.component.id === id ? [number] : []));
}

/** Terminals of a component: its device contacts and studs, or, where it has none, what its elements end at outside. One group a terminal. */
export function componentTerminals(harness: Harness, id: string): readonly (readonly number[])[] {
  const terminals = new Set<number>();
  harness.nodes.forEach((node, number) => {
    if (node.kind === "contact" && node.half.id === "device" && node.connector.component === id) terminals.add(number);
    if (node.kind === "stud" && node.stud.component === id) terminals.add(number);
  });
  if (terminals.size === 0) {
    for (const end of edgeEnds(harness, componentEdges(harness, id)))
      if (harness.nodes[end]?.kind !== "inner") terminals.add(end);
  }
  return [...terminals].map((terminal) => [terminal]);
}
