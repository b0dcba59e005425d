import type { GraphIndex } from "../../harness-model/index.ts";
import { checkNodePair, intAt, isSet, type NodePair, type Passage } from "./passage.ts";

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
 * Of several such paths it gives the one whose list of edge numbers is lowest when compared edge by edge from `from`. So the answer depends
 * on the numbering only, not on the order in which the arcs are stored; of two parallel wires the lower number is taken. Two searches go
 * towards each other, then the path is read off from `from`.
 *
 * Result by case: `found`; the same node twice is found with no edges; `apart` if there is no path or an end is blocked.
 *
 * @returns the path, or that there is none
 * @throws RangeError if a node is not in the graph Cost: O(nodes + edges).
 *
 * Source: breadth-first search, E. F. Moore, "The shortest path through a maze", 1959; from both ends, I. Pohl, "Bi-directional search",
 * Machine Intelligence 6 (1971). Both from memory.
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

/** One of the two searches that go towards each other. */
interface SearchFrontier {
  /** Number of edges from where this search began, -1 if not met. */
  readonly steps: Int32Array;
  readonly queue: Int32Array;
  /** The last whole layer is `queue[begin] .. queue[end - 1]`. */
  begin: number;
  end: number;
}

function startFrontier(index: GraphIndex, node: number): SearchFrontier {
  const steps = new Int32Array(index.nodeCount).fill(-1);
  const queue = new Int32Array(index.nodeCount);
  steps[node] = 0;
  queue[0] = node;
  return { steps, queue, begin: 0, end: 1 };
}

/**
 * Number of edges to `pair.to` from each node on a shortest path, -1 from nodes that matter for none. Two searches go towards each
 * other, a whole layer of the smaller one at a time; where they meet, the counts are carried back to `pair.from`.
 */
function measureSteps(index: GraphIndex, passage: Passage, pair: NodePair): Int32Array {
  const there = startFrontier(index, pair.from);
  const back = startFrontier(index, pair.to);
  while (intAt(there.steps, pair.to) < 0 && !isMet(there, back)) {
    const next = there.end - there.begin <= back.end - back.begin ? there : back;
    if (next.begin === next.end) return back.steps;
    growLayer(index, passage, next);
  }
  carryBack(index, passage, { there, back });
  return back.steps;
}

/** Whether the newest layers touch. Layers are whole, so the first touch is the shortest. */
function isMet(there: SearchFrontier, back: SearchFrontier): boolean {
  const [small, other] = there.end - there.begin <= back.end - back.begin ? [there, back] : [back, there];
  for (let place = small.begin; place < small.end; place++) {
    if (intAt(other.steps, intAt(small.queue, place)) >= 0) return true;
  }
  return false;
}

function growLayer(index: GraphIndex, passage: Passage, front: SearchFrontier): void {
  const { offsets, targets, arcEdges } = index;
  let count = front.end;
  for (let place = front.begin; place < front.end; place++) {
    const node = intAt(front.queue, place);
    const end = intAt(offsets, node + 1);
    for (let arc = intAt(offsets, node); arc < end; arc++) {
      const next = intAt(targets, arc);
      if (intAt(front.steps, next) >= 0) continue;
      if (!isSet(passage.nodes, next) || !isSet(passage.edges, intAt(arcEdges, arc))) continue;
      front.steps[next] = intAt(front.steps, node) + 1;
      front.queue[count++] = next;
    }
  }
  front.begin = front.end;
  front.end = count;
}

/** From the nodes where the searches met, gives each node on the way back to the start its number of edges to the end. */
function carryBack(
  index: GraphIndex,
  passage: Passage,
  { there, back }: { there: SearchFrontier; back: SearchFrontier },
): void {
  const { offsets, targets, arcEdges } = index;
  let layer: number[] = [];
  for (let place = there.begin; place < there.end; place++) {
    const node = intAt(there.queue, place);
    if (intAt(back.steps, node) >= 0) layer.push(node);
  }
  while (layer.length > 0) {
    const before: number[] = [];
    for (const node of layer) {
      const end = intAt(offsets, node + 1);
      for (let arc = intAt(offsets, node); arc < end; arc++) {
        const next = intAt(targets, arc);
        const isTowardsStart =
          intAt(there.steps, next) >= 0 && intAt(there.steps, next) === intAt(there.steps, node) - 1;
        if (!isTowardsStart || intAt(back.steps, next) >= 0 || !isSet(passage.edges, intAt(arcEdges, arc))) continue;
        back.steps[next] = intAt(back.steps, node) + 1;
        before.push(next);
      }
    }
    layer = before;
  }
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
