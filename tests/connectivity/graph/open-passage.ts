import type { GraphIndex } from "ohmward/harness-model";
import type { Passage } from "ohmward/connectivity";

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
