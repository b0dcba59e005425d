import type { GraphIndex } from "../../model/index.ts";
import type { Passage } from "./passage.ts";
import { intAt, isSet } from "./typed-reads.ts";

/**
 * A small graph cut out of a large one, numbered anew from 0, so that a search in it costs its own size only.
 *
 * Edges keep their order: a lower number here is a lower number there. The arcs of a node rise in edge number.
 */
export interface SubGraph {
  /** Number in the large graph of each node and edge here. */
  readonly nodes: readonly number[];
  readonly edges: readonly number[];
  /** Arcs of node n are `offsets[n] .. offsets[n + 1] - 1`. */
  readonly offsets: Int32Array;
  readonly targets: Int32Array;
  readonly arcEdges: Int32Array;
  /** Number here of a node of the large graph, if it is in. */
  readonly numberOf: ReadonlyMap<number, number>;
}

/**
 * Cuts out the passable ones of some edges, with their nodes.
 *
 * @param index the large graph
 * @param passage what may be walked
 * @param edges edge numbers to keep, in any order; one named twice counts once. Without it, all edges
 * @returns the small graph; O(edges given, sorted), O(all edges) without
 * @throws RangeError if an edge is not in the large graph
 */
export function cutOut(index: GraphIndex, passage: Passage, edges?: Iterable<number>): SubGraph {
  const wanted = edges === undefined ? Int32Array.from(index.from.keys()) : Int32Array.from(new Set(edges)).sort();
  const nodes: number[] = [];
  const numberOf = new Map<number, number>();
  const kept: number[] = [];
  const ends: number[] = [];
  for (const edge of wanted) {
    const from = intAt(index.from, edge);
    const to = intAt(index.to, edge);
    if (!isSet(passage.edges, edge) || !isSet(passage.nodes, from) || !isSet(passage.nodes, to)) continue;
    kept.push(edge);
    for (const node of [from, to]) {
      const known = numberOf.get(node) ?? nodes.length;
      if (known === nodes.length) {
        numberOf.set(node, known);
        nodes.push(node);
      }
      ends.push(known);
    }
  }
  return { nodes, edges: kept, numberOf, ...layArcs(nodes.length, Int32Array.from(ends)) };
}

/** Arcs by node; `ends[2 e]` and `ends[2 e + 1]` are the nodes of edge e. */
function layArcs(nodeCount: number, ends: Int32Array): Pick<SubGraph, "offsets" | "targets" | "arcEdges"> {
  const offsets = new Int32Array(nodeCount + 1);
  for (const node of ends) offsets[node + 1] = intAt(offsets, node + 1) + 1;
  for (let node = 0; node < nodeCount; node++) offsets[node + 1] = intAt(offsets, node + 1) + intAt(offsets, node);
  const targets = new Int32Array(ends.length);
  const arcEdges = new Int32Array(ends.length);
  const next = offsets.slice();
  for (let end = 0; end < ends.length; end++) {
    const node = intAt(ends, end);
    const arc = intAt(next, node);
    // The two ends of an edge stand side by side, at an even and an odd place.
    targets[arc] = intAt(ends, end ^ 1);
    arcEdges[arc] = end >> 1;
    next[node] = arc + 1;
  }
  return { offsets, targets, arcEdges };
}
