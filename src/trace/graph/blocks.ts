/**
 * The biconnected blocks of a passable graph and their rooted block-cut forest, ready for queries.
 *
 * A block is a largest set of edges of which any two lie on one closed way that meets no node twice; parallel edges form a
 * block together, and an edge on no such way (a bridge) is a block alone. Self loops and blocked edges are in no block.
 * Two blocks share one node at most, a cut node.
 *
 * The forest is rooted at one node of each component. Going up from a node leads to its parent block, going up from a
 * block leads to its top node. A level counts the blocks between a node and its root.
 */
export interface Blocks {
  readonly blockCount: number;
  readonly componentCount: number;
  /** Component of each node, -1 if the node is blocked. */
  readonly componentOfNode: Int32Array;
  /** The block towards the root of each node; -1 at a root and at a blocked node. */
  readonly parentBlockOfNode: Int32Array;
  /** Number of blocks between each node and its root. */
  readonly levelOfNode: Int32Array;
  /** The node of each block that is nearest to the root. */
  readonly topNodeOfBlock: Int32Array;
  /** The block of each edge, -1 for self loops and blocked edges. */
  readonly blockOfEdge: Int32Array;
  /** Edges of block k: `edgesByBlock[edgeOffsets[k]] .. edgesByBlock[edgeOffsets[k + 1] - 1]`, rising. */
  readonly edgeOffsets: Int32Array;
  readonly edgesByBlock: Int32Array;
  /** Nodes of block k without its top node, stored the same way. */
  readonly nodeOffsets: Int32Array;
  readonly nodesByBlock: Int32Array;
}
