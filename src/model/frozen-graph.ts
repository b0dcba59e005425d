import { MultiUndirectedGraph } from "graphology";
import type { HarnessEdge, HarnessNode } from "./harness-parts.ts";

/** Attributes of a graph node: its number in the index and the thing it stands for. */
export interface NodeAttributes {
  readonly number: number;
  readonly node: HarnessNode;
  readonly [key: string]: unknown;
}

/** Attributes of a graph edge: its number in the index and the thing it stands for. */
export interface EdgeAttributes {
  readonly number: number;
  readonly edge: HarnessEdge;
  readonly [key: string]: unknown;
}

const MUTATORS = [
  "addNode",
  "mergeNode",
  "updateNode",
  "dropNode",
  "addEdge",
  "mergeEdge",
  "updateEdge",
  "addEdgeWithKey",
  "mergeEdgeWithKey",
  "updateEdgeWithKey",
  "addUndirectedEdge",
  "mergeUndirectedEdge",
  "updateUndirectedEdge",
  "addUndirectedEdgeWithKey",
  "mergeUndirectedEdgeWithKey",
  "updateUndirectedEdgeWithKey",
  "addDirectedEdge",
  "mergeDirectedEdge",
  "updateDirectedEdge",
  "addDirectedEdgeWithKey",
  "mergeDirectedEdgeWithKey",
  "updateDirectedEdgeWithKey",
  "dropEdge",
  "dropUndirectedEdge",
  "dropDirectedEdge",
  "clear",
  "clearEdges",
  "import",
  "setAttribute",
  "updateAttribute",
  "removeAttribute",
  "replaceAttributes",
  "mergeAttributes",
  "updateAttributes",
  "setNodeAttribute",
  "updateNodeAttribute",
  "removeNodeAttribute",
  "replaceNodeAttributes",
  "mergeNodeAttributes",
  "updateNodeAttributes",
  "setSourceAttribute",
  "updateSourceAttribute",
  "removeSourceAttribute",
  "replaceSourceAttributes",
  "mergeSourceAttributes",
  "updateSourceAttributes",
  "setTargetAttribute",
  "updateTargetAttribute",
  "removeTargetAttribute",
  "replaceTargetAttributes",
  "mergeTargetAttributes",
  "updateTargetAttributes",
  "setOppositeAttribute",
  "updateOppositeAttribute",
  "removeOppositeAttribute",
  "replaceOppositeAttributes",
  "mergeOppositeAttributes",
  "updateOppositeAttributes",
  "updateEachNodeAttributes",
  "setEdgeAttribute",
  "updateEdgeAttribute",
  "removeEdgeAttribute",
  "replaceEdgeAttributes",
  "mergeEdgeAttributes",
  "updateEdgeAttributes",
  "setUndirectedEdgeAttribute",
  "updateUndirectedEdgeAttribute",
  "removeUndirectedEdgeAttribute",
  "replaceUndirectedEdgeAttributes",
  "mergeUndirectedEdgeAttributes",
  "updateUndirectedEdgeAttributes",
  "setDirectedEdgeAttribute",
  "updateDirectedEdgeAttribute",
  "removeDirectedEdgeAttribute",
  "replaceDirectedEdgeAttributes",
  "mergeDirectedEdgeAttributes",
  "updateDirectedEdgeAttributes",
  "updateEachEdgeAttributes",
] as const satisfies readonly (keyof MultiUndirectedGraph)[];

/** The graph of a harness, read-only for the compiler and at run time. */
export type FrozenGraph = Omit<MultiUndirectedGraph<NodeAttributes, EdgeAttributes>, (typeof MUTATORS)[number]>;

/**
 * Makes the frozen graph of a harness: multi, undirected, node and edge keys as in the harness.
 *
 * @param nodes Nodes by number.
 * @param edges Edges by number.
 * @param ends First and second node of each edge.
 * @returns A graph whose every changing method throws.
 */
export function makeFrozenGraph(
  nodes: readonly HarnessNode[],
  edges: readonly HarnessEdge[],
  ends: { readonly from: readonly number[]; readonly to: readonly number[] },
): FrozenGraph {
  const graph = new MultiUndirectedGraph<NodeAttributes, EdgeAttributes>();
  nodes.forEach((node, number) => graph.addNode(node.key, Object.freeze({ number, node })));
  edges.forEach((edge, number) => {
    const from = nodes[ends.from[number] ?? -1];
    const to = nodes[ends.to[number] ?? -1];
    if (!from || !to) throw new RangeError(`Cannot build the graph: edge "${edge.key}" has no end`);
    graph.addUndirectedEdgeWithKey(edge.key, from.key, to.key, Object.freeze({ number, edge }));
  });
  const refuse = (): never => {
    throw new TypeError("Cannot change the graph of a harness: it is frozen; change the document and fit it again");
  };
  for (const name of MUTATORS) Object.defineProperty(graph, name, { value: refuse });
  return Object.freeze(graph);
}
