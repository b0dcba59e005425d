import type { GraphIndex } from "../../harness-model/index.ts";
import { intAt, isSet, type Passage } from "./passage.ts";

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

/** The connected parts of what may be walked. */
export interface Components {
  readonly count: number;
  /** For each node the number of its component, -1 if the node is blocked. */
  readonly ofNode: Int32Array;
}

/**
 * Numbers the connected components of the passable graph.
 *
 * Components are numbered from 0 by their lowest node, so the numbers do not depend on the order of the edges. A node with no passable edge
 * is a component of its own; a blocked node is in none.
 *
 * @returns the number of components and the component of each node; O(nodes + edges)
 *
 * Source: J. Hopcroft, R. Tarjan, "Algorithm 447: efficient algorithms for graph manipulation", CACM 16 (1973) 372-378.
 */
export function components(index: GraphIndex, passage: Passage): Components {
  const { offsets, targets, arcEdges } = index;
  const ofNode = new Int32Array(index.nodeCount).fill(-1);
  const queue = new Int32Array(index.nodeCount);
  let count = 0;
  for (let start = 0; start < index.nodeCount; start++) {
    if (intAt(ofNode, start) >= 0 || !isSet(passage.nodes, start)) continue;
    ofNode[start] = count;
    queue[0] = start;
    let waiting = 1;
    while (waiting > 0) {
      const node = intAt(queue, --waiting);
      const end = intAt(offsets, node + 1);
      for (let arc = intAt(offsets, node); arc < end; arc++) {
        const next = intAt(targets, arc);
        if (intAt(ofNode, next) >= 0 || !isSet(passage.nodes, next)) continue;
        if (!isSet(passage.edges, intAt(arcEdges, arc))) continue;
        ofNode[next] = count;
        queue[waiting++] = next;
      }
    }
    count++;
  }
  return { count, ofNode };
}
