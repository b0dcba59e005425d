import type { GraphIndex } from "../../model/index.ts";
import type { Passage } from "./passage.ts";
import { intAt, isSet } from "./typed-reads.ts";

/** What can be reached: a flag for each node, and the reached nodes in the order of the walk (nearest first). */
export interface Reach {
  /** 1 for each reached node; the starts that may be walked are among them. */
  readonly reached: Uint8Array;
  /** The reached nodes, each once: the starts in the order given, then by number of edges from the nearest start. */
  readonly order: Int32Array;
}

/**
 * All nodes that can be reached from any of the start nodes along the passage (breadth first).
 *
 * A blocked start reaches nothing and is not reported; a start named twice counts once.
 *
 * @param index the graph
 * @param passage what may be walked
 * @param starts node numbers to start from; none gives an empty answer
 * @returns flags and order; O(nodes) for the flags, then O(edges of the reached part)
 * @throws RangeError if a start is not a node of the graph
 *
 * Source: breadth-first search, E. F. Moore, "The shortest path through a maze", 1959.
 */
export function reach(index: GraphIndex, passage: Passage, starts: Iterable<number>): Reach {
  const { offsets, targets, arcEdges } = index;
  const reached = new Uint8Array(index.nodeCount);
  const queue = new Int32Array(index.nodeCount);
  let count = 0;
  for (const start of starts) {
    if (!isSet(passage.nodes, start) || isSet(reached, start)) continue;
    reached[start] = 1;
    queue[count++] = start;
  }
  for (let place = 0; place < count; place++) {
    const node = intAt(queue, place);
    const end = intAt(offsets, node + 1);
    for (let arc = intAt(offsets, node); arc < end; arc++) {
      const next = intAt(targets, arc);
      if (isSet(reached, next) || !isSet(passage.nodes, next) || !isSet(passage.edges, intAt(arcEdges, arc))) continue;
      reached[next] = 1;
      queue[count++] = next;
    }
  }
  return { reached, order: queue.slice(0, count) };
}
