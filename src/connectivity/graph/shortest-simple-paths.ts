import type { GraphIndex } from "../../harness-model/index.ts";
import { checkNodePair, intAt, isSet, type NodePair, type Passage } from "./passage.ts";
import type { Path } from "./shortest-path.ts";

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
const defaultMaxExpansions = 1_000_000;

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
 * Two paths are different if their lists of edges are: two parallel wires make two paths. Paths come by number of edges, equal ones by
 * their edge numbers compared one by one from `from`; so the list is the same each time, and the list for a smaller limit is the beginning
 * of the list for a larger one.
 *
 * How: the best path is found; all others leave it somewhere. For each node of it the paths that leave it there form a set, and the best of
 * each set becomes a candidate; the lowest candidate is the next path, and its set is divided in the same way. The sets never overlap, so
 * no path comes twice.
 *
 * Result by case: no way or a blocked end gives no paths and `complete`; the same node twice gives one path without edges; if more than
 * `limit` paths exist, `complete` is false; if the work runs out, the paths listed are still the shortest ones in order, and `complete` is
 * false.
 *
 * @param question the two nodes, the limit, the edges allowed and the most work
 * @returns the paths, whether they are all, and the work done
 * @throws RangeError if a node or edge is not in the graph, or the limit is not a whole number above 0 Cost: O(limit x path length x edges
 *   allowed) at worst, cut off at `maxExpansions`.
 *
 * Source: J. Y. Yen, "Finding the k shortest loopless paths in a network", Management Science 17 (1971) 712-716; division into sets: E. L.
 * Lawler, "A procedure for computing the k best solutions ...", Management Science 18 (1972) 401-405.
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

/** A queue that always gives its lowest member first. */
interface OrderedHeap<T> {
  readonly push: (member: T) => void;
  /** Takes the lowest member out; `undefined` if empty. */
  readonly pop: () => T | undefined;
}

/**
 * Makes an empty binary heap.
 *
 * @param compare below 0 if the first comes before the second; two different members should never be equal, else their
 *   order depends on when they came
 * @returns the heap; push and pop cost O(log size) comparisons
 *
 * Source: J. W. J. Williams, "Algorithm 232: heapsort", CACM 7 (1964) 347-348.
 */
function orderedHeap<T>(compare: (first: T, second: T) => number): OrderedHeap<T> {
  const members: T[] = [];

  function push(member: T): void {
    let place = members.length;
    members.push(member);
    while (place > 0) {
      const above = (place - 1) >> 1;
      const parent = members[above];
      if (parent === undefined || compare(parent, member) <= 0) break;
      members[place] = parent;
      place = above;
    }
    members[place] = member;
  }

  /** Lets a member sink from the top of the heap to its place. */
  function sink(member: T): void {
    let place = 0;
    for (;;) {
      let below = 2 * place + 1;
      let child = members[below];
      const other = members[below + 1];
      if (child === undefined) break;
      if (other !== undefined && compare(other, child) < 0) {
        child = other;
        below++;
      }
      if (compare(member, child) <= 0) break;
      members[place] = child;
      place = below;
    }
    members[place] = member;
  }

  function pop(): T | undefined {
    const top = members[0];
    const last = members.pop();
    if (last !== undefined && members.length > 0) sink(last);
    return top;
  }

  return { push, pop };
}

/** What is asked of a rest search, in the numbers of the small graph. */
interface RestQuestion {
  /** The path so far, first node to the node to go on from; no other step may come back to these nodes. */
  readonly prefix: readonly number[];
  /** Edges that may not be the next step. */
  readonly banned: ReadonlySet<number>;
  readonly to: number;
}

/** How a path goes on: edges and the nodes they lead to; or none; or the search was stopped for the amount of work. */
type Rest =
  | { readonly kind: "found"; readonly nodes: readonly number[]; readonly edges: readonly number[] }
  | { readonly kind: "none" }
  | { readonly kind: "stopped" };

/** The arrays of the searches and the count of the work. */
interface Work {
  readonly graph: SubGraph;
  readonly maxExpansions: number;
  /** The search that last met, or barred, each node. */
  readonly metIn: Int32Array;
  readonly barredIn: Int32Array;
  /** Steps to the end, for nodes met in this search. */
  readonly steps: Int32Array;
  readonly queue: Int32Array;
  search: number;
  expansions: number;
}

/** Finds how a path can go on to its end; keeps count of the work. */
interface RestSearch {
  readonly find: (question: RestQuestion) => Rest;
  /** Nodes looked at in all searches so far. */
  readonly expansions: () => number;
}

/**
 * Prepares searches for the best rest of a path: fewest edges, then lowest edge numbers compared from its start.
 *
 * Its arrays are allocated once and never cleared: a node counts as met only if it bears the number of the search.
 *
 * @param maxExpansions number of nodes that all searches together may look at
 * @returns the search; one question costs O(edges of the small graph)
 */
function restSearch(graph: SubGraph, maxExpansions: number): RestSearch {
  const nodeCount = graph.nodes.length;
  const work: Work = {
    graph,
    maxExpansions,
    metIn: new Int32Array(nodeCount),
    barredIn: new Int32Array(nodeCount),
    steps: new Int32Array(nodeCount),
    queue: new Int32Array(nodeCount),
    search: 0,
    expansions: 0,
  };
  return { find: (question) => findRest(work, question), expansions: () => work.expansions };
}

function findRest(work: Work, question: RestQuestion): Rest {
  const from = question.prefix.at(-1);
  if (from === undefined) throw new RangeError("Cannot go on with a path: it has no node");
  work.search++;
  for (const node of question.prefix) if (node !== from) work.barredIn[node] = work.search;
  const outcome = measureSteps(work, question, from);
  if (outcome !== "met") return { kind: outcome };
  const nodes: number[] = [];
  const edges: number[] = [];
  for (let node = from; node !== question.to;) {
    const arc = arcNearer(work, node, node === from ? question.banned : undefined);
    node = intAt(work.graph.targets, arc);
    nodes.push(node);
    edges.push(intAt(work.graph.arcEdges, arc));
  }
  return { kind: "found", nodes, edges };
}

/** Measures the steps to the end, backwards, until the node to go on from is met. */
function measureSteps(work: Work, question: RestQuestion, from: number): "met" | "none" | "stopped" {
  const { metIn, barredIn, steps, queue, search } = work;
  const { offsets, targets, arcEdges } = work.graph;
  metIn[question.to] = search;
  steps[question.to] = 0;
  queue[0] = question.to;
  let count = 1;
  for (let place = 0; place < count; place++) {
    if (work.expansions >= work.maxExpansions) return "stopped";
    work.expansions++;
    const node = intAt(queue, place);
    const end = intAt(offsets, node + 1);
    for (let arc = intAt(offsets, node); arc < end; arc++) {
      const next = intAt(targets, arc);
      if (intAt(metIn, next) === search || intAt(barredIn, next) === search) continue;
      if (next === from && question.banned.has(intAt(arcEdges, arc))) continue;
      metIn[next] = search;
      steps[next] = intAt(steps, node) + 1;
      if (next === from) return "met";
      queue[count++] = next;
    }
  }
  return "none";
}

/** The arc of the lowest edge that leads one step nearer to the end; the arcs of a node rise in edge number. */
function arcNearer(work: Work, node: number, banned: ReadonlySet<number> | undefined): number {
  const { offsets, targets, arcEdges } = work.graph;
  const wanted = intAt(work.steps, node) - 1;
  for (let arc = intAt(offsets, node); ; arc++) {
    const next = intAt(targets, arc);
    if (intAt(work.metIn, next) !== work.search || intAt(work.steps, next) !== wanted) continue;
    if (banned?.has(intAt(arcEdges, arc)) !== true) return arc;
  }
}

/**
 * A small graph cut out of a large one, numbered anew from 0, so that a search in it costs its own size only.
 *
 * Edges keep their order: a lower number here is a lower number there. The arcs of a node rise in edge number.
 */
interface SubGraph {
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
 * @param edges edge numbers to keep, in any order; one named twice counts once. Without it, all edges
 * @returns the small graph; O(edges given, sorted), O(all edges) without
 * @throws RangeError if an edge is not in the large graph
 */
function cutOut(index: GraphIndex, passage: Passage, edges?: Iterable<number>): SubGraph {
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
