import { MultiUndirectedGraph } from "graphology";
import type { Harness } from "./harness.ts";
import type { HarnessEdge, HarnessNode } from "./harness-parts.ts";

/** Attributes of a graph node: its number in the index and the item it stands for. */
export interface NodeAttributes {
  readonly number: number;
  readonly node: HarnessNode;
  readonly [key: string]: unknown;
}

/** Attributes of a graph edge: its number in the index and the item it stands for. */
export interface EdgeAttributes {
  readonly number: number;
  readonly edge: HarnessEdge;
  readonly [key: string]: unknown;
}

type Graph = MultiUndirectedGraph<NodeAttributes, EdgeAttributes>;

/** Every method of a graph that changes it starts with one of these words, and no method that only reads does. */
type ChangingMethod =
  `${"add" | "merge" | "update" | "drop" | "clear" | "import" | "set" | "remove" | "replace"}${string}`;

/**
 * The graph of a harness as the graphology library holds graphs: multi, undirected, without the methods that change it. Its `copy()`
 * is a graph that may be changed and that every algorithm of that library takes.
 */
export type HarnessGraph = Omit<Graph, ChangingMethod>;

const made = new WeakMap<Harness, HarnessGraph>();

/**
 * The typed graph of a harness: a node for each contact, splice, stud, open wire end and inner point, an edge for each wire, mating and
 * element, with the keys of `harness.nodes` and `harness.edges`. It is made when it is first asked for, and once for each harness.
 *
 * @param harness A machine in one build.
 * @returns The graph; the same object at every call.
 */
export function harnessGraph(harness: Harness): HarnessGraph {
  const known = made.get(harness);
  if (known) return known;
  const { nodes, edges, index } = harness;
  const graph: Graph = new MultiUndirectedGraph<NodeAttributes, EdgeAttributes>();
  nodes.forEach((node, number) => graph.addNode(node.key, { number, node }));
  edges.forEach((edge, number) => {
    const from = nodes[index.from[number] ?? -1];
    const to = nodes[index.to[number] ?? -1];
    if (!from || !to) throw new RangeError(`Cannot build the graph: edge "${edge.key}" has no end`);
    graph.addUndirectedEdgeWithKey(edge.key, from.key, to.key, { number, edge });
  });
  made.set(harness, graph);
  return graph;
}
