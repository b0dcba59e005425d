/** Two nodes that a question is about, as node numbers of one graph index. They may be the same node. */
export interface NodePair {
  readonly from: number;
  readonly to: number;
}

/**
 * Stops a question about nodes that the graph does not have.
 *
 * @param nodeCount number of nodes of the graph
 * @param pair the two nodes asked for
 * @throws RangeError if one is not a whole number from 0 to `nodeCount - 1`
 */
export function checkNodePair(nodeCount: number, pair: NodePair): void {
  for (const node of [pair.from, pair.to]) {
    if (!Number.isInteger(node) || node < 0 || node >= nodeCount) {
      throw new RangeError(`Cannot ask about node ${node}: wanted a whole number from 0 to ${nodeCount - 1}`);
    }
  }
}
