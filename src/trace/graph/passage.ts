import type { GraphIndex } from "../../model/index.ts";

/**
 * Which parts of the graph may be walked: 1 = may be walked, 0 = blocked. One byte for each edge and for each node.
 *
 * A step over an edge is allowed only if the edge and both of its nodes are. The same graph serves every question: "what
 * conductors alone join" blocks all elements, "key off" blocks the open switches, "unplugged" blocks one connector.
 * Read only by agreement: typed arrays cannot be frozen, and no function in this folder writes to a passage.
 */
export interface Passage {
  readonly edges: Uint8Array;
  readonly nodes: Uint8Array;
}

/**
 * The passage that blocks nothing; a starting point for callers that then block edges or nodes in it before first use.
 *
 * @param index the graph
 * @returns a new passage with every byte 1; O(nodes + edges)
 */
export function openPassage(index: GraphIndex): Passage {
  return {
    edges: new Uint8Array(index.edgeCount).fill(1),
    nodes: new Uint8Array(index.nodeCount).fill(1),
  };
}
