import type { GraphIndex } from "../../harness-model/index.ts";
import { checkNodePair, intAt, isSet, type NodePair, type Passage } from "./passage.ts";

/** Two passages of one graph: the one that the question is about, and a wider one to look beyond the cut. */
export interface PassagePair {
  readonly narrow: Passage;
  /** Should allow all that `narrow` allows; what only `narrow` allows is not walked. */
  readonly wider: Passage;
}

/** The blocked edge or node that is met first on a way from `from`, and the way itself. */
export interface Blocked {
  readonly kind: "blocked";
  /** Whether `number` is an edge or a node; where both are blocked, what is met first: the edge. */
  readonly what: "edge" | "node";
  readonly number: number;
  /** A whole way in the wider passage, in order, both ends included. */
  readonly nodes: readonly number[];
  readonly edges: readonly number[];
  /** All that is blocked on that way, in path order. */
  readonly blockedNodes: readonly number[];
  readonly blockedEdges: readonly number[];
}

/** The answer of {@link firstBlocked}. */
export type CutAt = Blocked | { readonly kind: "joined" } | { readonly kind: "apart" };

/**
 * Where the way from one node to another is cut: the first thing on it that the narrow passage does not allow.
 *
 * Of all ways in the wider passage it takes one with the fewest blocked steps (a step is an edge with the node it leads to), and of those
 * one with the fewest edges, so that one open switch is named rather than a detour through three.
 *
 * Result by case: `joined` if a way without anything blocked exists; `blocked` with the first blocked edge or node and the way; `apart` if
 * not even the wider passage joins the two. If `from` itself is blocked in the narrow passage, it is the answer. The same node twice is
 * `joined`, or `blocked` if it is blocked. Asking the other way round may name another thing: the far end of the same cut.
 *
 * @param passages the narrow and the wider passage
 * @returns the first blocked thing; the same input gives the same way
 * @throws RangeError if a node is not in the graph Cost: O(nodes + edges).
 *
 * Source: layered breadth-first search for step costs 0 and 1, after R. B. Dial, "Algorithm 360: shortest-path forest with topological
 * ordering", CACM 12 (1969) 632-633.
 */
export function firstBlocked(index: GraphIndex, passages: PassagePair, pair: NodePair): CutAt {
  checkNodePair(index.nodeCount, pair);
  const { narrow, wider } = passages;
  if (!isSet(wider.nodes, pair.from) || !isSet(wider.nodes, pair.to)) return { kind: "apart" };
  const arrivedBy = searchLayers(index, passages, pair);
  if (intAt(arrivedBy, pair.to) === unmet) return { kind: "apart" };
  const nodes = [pair.to];
  const edges: number[] = [];
  for (let node = pair.to; node !== pair.from;) {
    const edge = intAt(arrivedBy, node);
    node = otherEnd(index, edge, node);
    edges.push(edge);
    nodes.push(node);
  }
  nodes.reverse();
  edges.reverse();
  const blockedNodes = nodes.filter((node) => !isSet(narrow.nodes, node));
  const blockedEdges = edges.filter((edge) => !isSet(narrow.edges, edge));
  const [node] = blockedNodes;
  const [edge] = blockedEdges;
  const way = { kind: "blocked", nodes, edges, blockedNodes, blockedEdges } as const;
  // Edge i leads from node i to node i + 1, so at equal places the node comes first.
  if (node !== undefined && (edge === undefined || nodes.indexOf(node) <= edges.indexOf(edge))) {
    return { ...way, what: "node", number: node };
  }
  return edge === undefined ? { kind: "joined" } : { ...way, what: "edge", number: edge };
}

const unmet = -2;
const byStart = -1;

function otherEnd(index: GraphIndex, edge: number, node: number): number {
  const from = intAt(index.from, edge);
  return from === node ? intAt(index.to, edge) : from;
}

/** One arrival that waits to be walked on from: the node, the edge it was reached by, and the edges from the start. */
interface Arrival {
  readonly node: number;
  readonly edge: number;
  readonly steps: number;
}

/** Walks layer by layer (0 blocked steps, 1, ...), each layer in order of edges; gives the edge each node is reached by. */
function searchLayers(index: GraphIndex, passages: PassagePair, pair: NodePair): Int32Array {
  const arrivedBy = new Int32Array(index.nodeCount).fill(unmet);
  let entries: readonly Arrival[] = [{ node: pair.from, edge: byStart, steps: 0 }];
  while (entries.length > 0 && intAt(arrivedBy, pair.to) === unmet) {
    entries = walkLayer(index, passages, { arrivedBy, entries });
  }
  return arrivedBy;
}

interface Layer {
  readonly arrivedBy: Int32Array;
  /** Where the layer is entered, rising in steps. */
  readonly entries: readonly Arrival[];
}

function walkLayer(index: GraphIndex, passages: PassagePair, layer: Layer): readonly Arrival[] {
  const { arrivedBy, entries } = layer;
  const { narrow, wider } = passages;
  const inLayer: Arrival[] = [];
  const nextEntries: Arrival[] = [];
  let nextEntry = 0;
  let nextInLayer = 0;
  for (;;) {
    // Both lists rise in steps; taking the smaller head keeps the whole layer in order of steps.
    const entry = entries[nextEntry];
    const inner = inLayer[nextInLayer];
    const arrival = inner === undefined || (entry !== undefined && entry.steps <= inner.steps) ? entry : inner;
    if (arrival === undefined) return nextEntries;
    if (arrival === entry) nextEntry++;
    else nextInLayer++;
    if (intAt(arrivedBy, arrival.node) !== unmet) continue;
    arrivedBy[arrival.node] = arrival.edge;
    const end = intAt(index.offsets, arrival.node + 1);
    for (let arc = intAt(index.offsets, arrival.node); arc < end; arc++) {
      const node = intAt(index.targets, arc);
      const edge = intAt(index.arcEdges, arc);
      if (intAt(arrivedBy, node) !== unmet || !isSet(wider.edges, edge) || !isSet(wider.nodes, node)) continue;
      const isFree = isSet(narrow.edges, edge) && isSet(narrow.nodes, node);
      (isFree ? inLayer : nextEntries).push({ node, edge, steps: arrival.steps + 1 });
    }
  }
}
