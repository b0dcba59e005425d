/**
 * The shape of a graph as flat typed arrays, read once from a harness; every question runs on it.
 *
 * Nodes and edges are numbered from 0. Every edge appears as two arcs, one at each of its nodes (a self loop as two arcs at
 * its node). Arcs of one node stand in rising order of edge number, so that every walk over them is deterministic.
 */
export interface GraphIndex {
  readonly nodeCount: number;
  readonly edgeCount: number;
  /** Arcs of node n are `offsets[n]` to `offsets[n + 1] - 1`. */
  readonly offsets: Int32Array;
  /** Per arc: the node at its other end. */
  readonly targets: Int32Array;
  /** Per arc: the edge it belongs to. */
  readonly arcEdges: Int32Array;
  /** Per edge: its first node. */
  readonly from: Int32Array;
  /** Per edge: its second node. */
  readonly to: Int32Array;
}

/**
 * Builds the index of a multigraph in time linear in nodes and edges.
 *
 * @param nodeCount How many nodes there are; they are numbered from 0.
 * @param from First node of each edge.
 * @param to Second node of each edge; as long as `from`.
 * @returns The index; it shares no storage with the arguments.
 * @throws RangeError if the arrays differ in length or name a node that does not exist.
 * @example
 * ```ts
 * import { buildGraphIndex } from "ohmward/harness-model";
 * const index = buildGraphIndex(3, [0, 1], [1, 2]);
 * expect([...index.targets.slice(index.offsets[1], index.offsets[2])]).toEqual([0, 2]);
 * ```
 */
export function buildGraphIndex(nodeCount: number, from: ArrayLike<number>, to: ArrayLike<number>): GraphIndex {
  if (from.length !== to.length) throw new RangeError("Cannot build a graph index: every edge needs two ends");
  const edgeCount = from.length;
  const first = Int32Array.from(from);
  const second = Int32Array.from(to);
  const offsets = new Int32Array(nodeCount + 1);
  for (const ends of [first, second]) {
    for (const node of ends) {
      if (node < 0 || node >= nodeCount)
        throw new RangeError(`Cannot build a graph index: no node ${node} of ${nodeCount}`);
      offsets[node + 1] = (offsets[node + 1] ?? 0) + 1;
    }
  }
  for (let node = 0; node < nodeCount; node++) offsets[node + 1] = (offsets[node + 1] ?? 0) + (offsets[node] ?? 0);
  const next = offsets.slice(0, nodeCount);
  const targets = new Int32Array(2 * edgeCount);
  const arcEdges = new Int32Array(2 * edgeCount);
  const place = (node: number, target: number, edge: number): void => {
    const arc = next[node] ?? 0;
    next[node] = arc + 1;
    targets[arc] = target;
    arcEdges[arc] = edge;
  };
  for (let edge = 0; edge < edgeCount; edge++) {
    const a = first[edge] ?? 0;
    const b = second[edge] ?? 0;
    place(a, b, edge);
    place(b, a, edge);
  }
  return { nodeCount, edgeCount, offsets, targets, arcEdges, from: first, to: second };
}
