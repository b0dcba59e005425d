import type Graph from "graphology";

interface Frame {
  readonly node: string;
  readonly cameBy: string | undefined;
  readonly edges: readonly string[];
  next: number;
}

/**
 * Counts the biconnected blocks of a graph by graphology's own methods, node by name: what the same method costs without flat arrays.
 *
 * Source: J. Hopcroft, R. Tarjan, "Algorithm 447: efficient algorithms for graph manipulation", CACM 16 (1973) 372-378.
 */
export function countBlocksByGraphology(graph: Graph): number {
  const metAs = new Map<string, number>();
  const low = new Map<string, number>();
  let blocks = 0;
  const meet = (node: string, cameBy: string | undefined): Frame => {
    const number = metAs.size;
    metAs.set(node, number);
    low.set(node, number);
    return { node, cameBy, edges: graph.edges(node), next: 0 };
  };
  const lower = (node: string, to: number): void => {
    low.set(node, Math.min(low.get(node) ?? 0, to));
  };
  graph.forEachNode((root) => {
    if (metAs.has(root)) return;
    const stack = [meet(root, undefined)];
    for (let frame = stack.at(-1); frame; frame = stack.at(-1)) {
      const edge = frame.edges[frame.next++];
      if (edge === undefined) {
        stack.pop();
        const parent = stack.at(-1);
        if (!parent) continue;
        lower(parent.node, low.get(frame.node) ?? 0);
        if ((low.get(frame.node) ?? 0) >= (metAs.get(parent.node) ?? 0)) blocks++;
        continue;
      }
      if (edge === frame.cameBy) continue;
      const other = graph.opposite(frame.node, edge);
      const met = metAs.get(other);
      if (met === undefined) stack.push(meet(other, edge));
      else lower(frame.node, met);
    }
  });
  return blocks;
}
