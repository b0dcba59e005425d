import type { SubGraph } from "./sub-graph.ts";
import { intAt } from "./typed-reads.ts";

/** What is asked of a rest search, in the numbers of the small graph. */
export interface RestQuestion {
  /** The path so far, first node to the node to go on from; no other step may come back to these nodes. */
  readonly prefix: readonly number[];
  /** Edges that may not be the next step. */
  readonly banned: ReadonlySet<number>;
  readonly to: number;
}

/** How a path goes on: edges and the nodes they lead to; or none; or the search was stopped for the amount of work. */
export type Rest =
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
export interface RestSearch {
  readonly find: (question: RestQuestion) => Rest;
  /** Nodes looked at in all searches so far. */
  readonly expansions: () => number;
}

/**
 * Prepares searches for the best rest of a path: fewest edges, then lowest edge numbers compared from its start.
 *
 * Its arrays are allocated once and never cleared: a node counts as met only if it bears the number of the search.
 *
 * @param graph the small graph
 * @param maxExpansions number of nodes that all searches together may look at
 * @returns the search; one question costs O(edges of the small graph)
 */
export function restSearch(graph: SubGraph, maxExpansions: number): RestSearch {
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
