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

/** Two nodes that a question is about, as node numbers of one graph index. They may be the same node. */
export interface NodePair {
  readonly from: number;
  readonly to: number;
}

/**
 * Stops a question about nodes that the graph does not have.
 *
 * @throws RangeError if one is not a whole number from 0 to `nodeCount - 1`
 */
export function checkNodePair(nodeCount: number, pair: NodePair): void {
  for (const node of [pair.from, pair.to]) {
    if (!Number.isInteger(node) || node < 0 || node >= nodeCount) {
      throw new RangeError(`Cannot ask about node ${node}: wanted a whole number from 0 to ${nodeCount - 1}`);
    }
  }
}

/**
 * The number at a place of a typed array.
 *
 * Walks over the graph only read places that exist; reading beside the array is a programmer's mistake and throws here instead of going on
 * with `undefined`. Kept tiny so that the engine inlines it.
 *
 * @param place place in it, from 0
 * @returns the number there
 * @throws RangeError if the array has no such place
 */
export function intAt(numbers: Int32Array, place: number): number {
  const found = numbers[place];
  if (found === undefined) throw new RangeError(`Cannot read place ${place}: the array has ${numbers.length}`);
  return found;
}

/**
 * Whether a flag is set (not 0). A place outside the array throws, as in {@link intAt}.
 *
 * @param flags one byte a node or edge, 0 or 1
 * @param place place in it, from 0
 * @returns true if the byte is not 0
 * @throws RangeError if the array has no such place
 */
export function isSet(flags: Uint8Array, place: number): boolean {
  const found = flags[place];
  if (found === undefined) throw new RangeError(`Cannot read flag ${place}: the array has ${flags.length}`);
  return found !== 0;
}
