import type { GraphIndex } from "../../model/index.ts";
import { checkNodePair, type NodePair } from "./node-pair.ts";
import type { Passage } from "./passage.ts";
import { intAt, isSet } from "./typed-reads.ts";

/** A path: `edges[i]` joins `nodes[i]` to `nodes[i + 1]`, so there is one node more than edges. */
export interface Path {
  readonly nodes: readonly number[];
  readonly edges: readonly number[];
}

/** The answer of {@link shortestPath}. */
export type ShortestPath = ({ readonly kind: "found" } & Path) | { readonly kind: "apart" };

/**
 * The path with the fewest edges between two nodes.
 *
 * Of several such paths it gives the one whose list of edge numbers is lowest when compared edge by edge from `from`. So
 * the answer depends on the numbering only, not on the order in which the arcs are stored; of two parallel wires the lower
 * number is taken. Distances are measured backwards from `to`, then the path is read off from `from`.
 *
 * Result by case: `found`; the same node twice is found with no edges; `apart` if there is no path or an end is blocked.
 *
 * @param index the graph
 * @param passage what may be walked
 * @param pair the two nodes
 * @returns the path, or that there is none
 * @throws RangeError if a node is not in the graph
 * Cost: O(nodes + edges).
 *
 * Source: breadth-first search, E. F. Moore, "The shortest path through a maze", 1959.
 */
export function shortestPath(index: GraphIndex, passage: Passage, pair: NodePair): ShortestPath {
  checkNodePair(index.nodeCount, pair);
  if (!isSet(passage.nodes, pair.from) || !isSet(passage.nodes, pair.to)) return { kind: "apart" };
  const stepsToEnd = measureSteps(index, passage, pair);
  if (intAt(stepsToEnd, pair.from) < 0) return { kind: "apart" };
  const nodes = [pair.from];
  const edges: number[] = [];
  let node = pair.from;
  while (node !== pair.to) {
    const step = lowestStep(index, passage, { node, stepsToEnd });
    node = step.node;
    nodes.push(node);
    edges.push(step.edge);
  }
  return { kind: "found", nodes, edges };
}

/** Number of edges from each node to `pair.to`, -1 if not met; stops when `pair.from` is met. */
function measureSteps(index: GraphIndex, passage: Passage, pair: NodePair): Int32Array {
  const { offsets, targets, arcEdges } = index;
  const steps = new Int32Array(index.nodeCount).fill(-1);
  const queue = new Int32Array(index.nodeCount);
  steps[pair.to] = 0;
  queue[0] = pair.to;
  let count = 1;
  for (let place = 0; place < count && intAt(steps, pair.from) < 0; place++) {
    const node = intAt(queue, place);
    const stepsOfNext = intAt(steps, node) + 1;
    const end = intAt(offsets, node + 1);
    for (let arc = intAt(offsets, node); arc < end; arc++) {
      const next = intAt(targets, arc);
      if (intAt(steps, next) >= 0 || !isSet(passage.nodes, next) || !isSet(passage.edges, intAt(arcEdges, arc)))
        continue;
      steps[next] = stepsOfNext;
      queue[count++] = next;
    }
  }
  return steps;
}

interface Place {
  readonly node: number;
  readonly stepsToEnd: Int32Array;
}

function lowestStep(index: GraphIndex, passage: Passage, place: Place): { node: number; edge: number } {
  const wanted = intAt(place.stepsToEnd, place.node) - 1;
  let best = { node: -1, edge: index.edgeCount };
  const end = intAt(index.offsets, place.node + 1);
  for (let arc = intAt(index.offsets, place.node); arc < end; arc++) {
    const edge = intAt(index.arcEdges, arc);
    const node = intAt(index.targets, arc);
    if (edge < best.edge && isSet(passage.edges, edge) && intAt(place.stepsToEnd, node) === wanted)
      best = { node, edge };
  }
  return best;
}
