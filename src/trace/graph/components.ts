import type { GraphIndex } from "../../model/index.ts";
import type { Passage } from "./passage.ts";
import { intAt, isSet } from "./typed-reads.ts";

/** The connected parts of what may be walked. */
export interface Components {
  readonly count: number;
  /** For each node the number of its component, -1 if the node is blocked. */
  readonly ofNode: Int32Array;
}

/**
 * Numbers the connected components of the passable graph.
 *
 * Components are numbered from 0 by their lowest node, so the numbers do not depend on the order of the edges. A node
 * with no passable edge is a component of its own; a blocked node is in none.
 *
 * @param index the graph
 * @param passage what may be walked
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
