import type { GraphIndex } from "../../model/index.ts";
import { checkNodePair, type NodePair } from "./node-pair.ts";
import { orderedHeap } from "./ordered-heap.ts";
import type { Passage } from "./passage.ts";
import { restSearch, type RestSearch } from "./rest-search.ts";
import type { Path } from "./shortest-path.ts";
import { cutOut, type SubGraph } from "./sub-graph.ts";
import { isSet } from "./typed-reads.ts";

/** Which paths are wanted, and how much work they may cost. */
export interface PathsQuestion extends NodePair {
  /** Largest number of paths to list, at least 1. */
  readonly limit: number;
  /** Edges that a path may take; the `edges` of `betweenNodes` lose no path and save the most. Without it, all edges. */
  readonly edges?: Iterable<number>;
  /** Largest number of nodes to look at in all searches together; {@link defaultMaxExpansions} if left out. */
  readonly maxExpansions?: number;
}

/** The answer of {@link shortestSimplePaths}. */
export interface ShortestPaths {
  /** Fewest edges first; empty if there is none. */
  readonly paths: readonly Path[];
  /** True only if it is proved that there are no other simple paths than those listed. */
  readonly complete: boolean;
  /** Nodes looked at. */
  readonly expansions: number;
}

/** Nodes looked at before the search gives up; some tens of milliseconds. Common practice, no source. */
export const defaultMaxExpansions = 1_000_000;

/** The best path of a set of paths: those that begin with `edges[0 .. keep - 1]` and do not go on with a banned edge. */
interface Candidate {
  readonly nodes: readonly number[];
  readonly edges: readonly number[];
  readonly keep: number;
  readonly banned: ReadonlySet<number>;
}

/**
 * The shortest simple paths between two nodes, one after the other, as whole paths to read.
 *
 * Two paths are different if their lists of edges are: two parallel wires make two paths. Paths come by number of edges,
 * equal ones by their edge numbers compared one by one from `from`; so the list is the same each time, and the list for a
 * smaller limit is the beginning of the list for a larger one.
 *
 * How: the best path is found; all others leave it somewhere. For each node of it the paths that leave it there form
 * a set, and the best of each set becomes a candidate; the lowest candidate is the next path, and its set is divided
 * in the same way. The sets never overlap, so no path comes twice.
 *
 * Result by case: no way or a blocked end gives no paths and `complete`; the same node twice gives one path without edges;
 * if more than `limit` paths exist, `complete` is false; if the work runs out, the paths listed are still the
 * shortest ones in order, and `complete` is false.
 *
 * @param index the graph
 * @param passage what may be walked
 * @param question the two nodes, the limit, the edges allowed and the most work
 * @returns the paths, whether they are all, and the work done
 * @throws RangeError if a node or edge is not in the graph, or the limit is not a whole number above 0
 * Cost: O(limit x path length x edges allowed) at worst, cut off at `maxExpansions`.
 *
 * Source: J. Y. Yen, "Finding the k shortest loopless paths in a network", Management Science 17 (1971) 712-716; division
 * into sets: E. L. Lawler, "A procedure for computing the k best solutions ...", Management Science 18 (1972) 401-405.
 */
export function shortestSimplePaths(index: GraphIndex, passage: Passage, question: PathsQuestion): ShortestPaths {
  checkNodePair(index.nodeCount, question);
  const { from, to, limit, maxExpansions = defaultMaxExpansions } = question;
  if (!Number.isInteger(limit) || limit < 1) {
    throw new RangeError(`Cannot list ${limit} paths: wanted a whole number above 0`);
  }
  if (!isSet(passage.nodes, from) || !isSet(passage.nodes, to)) return { paths: [], complete: true, expansions: 0 };
  if (from === to) return { paths: [{ nodes: [from], edges: [] }], complete: true, expansions: 0 };
  const graph = cutOut(index, passage, question.edges);
  const start = graph.numberOf.get(from);
  const end = graph.numberOf.get(to);
  if (start === undefined || end === undefined) return { paths: [], complete: true, expansions: 0 };
  const search = restSearch(graph, maxExpansions);
  const ranked = rankPaths(search, { from: start, to: end }, limit);
  return { ...ranked, paths: ranked.paths.map((path) => inLargeGraph(graph, path)), expansions: search.expansions() };
}

function rankPaths(search: RestSearch, ends: NodePair, limit: number): { paths: Path[]; complete: boolean } {
  const candidates = orderedHeap(compareCandidates);
  const paths: Path[] = [];
  const whole: Candidate = { nodes: [ends.from], edges: [], keep: 0, banned: new Set() };
  let isStopped = !addBest(search, candidates.push, { set: whole, to: ends.to });
  for (;;) {
    const next = candidates.pop();
    // After a search was stopped a candidate may be missing, so the order of the others is no longer proved.
    if (next === undefined || isStopped) return { paths, complete: !isStopped };
    if (paths.length === limit) return { paths, complete: false };
    paths.push(next);
    for (let keep = next.keep; keep < next.edges.length && !isStopped; keep++) {
      const banned = new Set(next.edges.slice(keep, keep + 1));
      if (keep === next.keep) for (const edge of next.banned) banned.add(edge);
      const set = { nodes: next.nodes.slice(0, keep + 1), edges: next.edges.slice(0, keep), keep, banned };
      isStopped = !addBest(search, candidates.push, { set, to: ends.to });
    }
  }
}

/** Finds the best path of a set and adds it; false if the search was stopped. */
function addBest(
  search: RestSearch,
  add: (candidate: Candidate) => void,
  wanted: { readonly set: Candidate; readonly to: number },
): boolean {
  const { set, to } = wanted;
  const rest = search.find({ prefix: set.nodes, banned: set.banned, to });
  if (rest.kind === "found") {
    add({ ...set, nodes: [...set.nodes, ...rest.nodes], edges: [...set.edges, ...rest.edges] });
  }
  return rest.kind !== "stopped";
}

function compareCandidates(first: Candidate, second: Candidate): number {
  if (first.edges.length !== second.edges.length) return first.edges.length - second.edges.length;
  for (const [place, edge] of first.edges.entries()) {
    const difference = edge - (second.edges[place] ?? edge);
    if (difference !== 0) return difference;
  }
  return 0;
}

function inLargeGraph(graph: SubGraph, path: Path): Path {
  const translate = (numbers: readonly number[], table: readonly number[]): number[] =>
    numbers.map((number) => table[number] ?? -1);
  return { nodes: translate(path.nodes, graph.nodes), edges: translate(path.edges, graph.edges) };
}
