/** Where the branches of a network run; stays the same while their values change. */
export interface BranchShape {
  readonly nodeCount: number;
  /** Per branch: its first node. */
  readonly from: Int32Array;
  /** Per branch: its second node. */
  readonly to: Int32Array;
}

/** What the branches of a network are. */
export interface BranchValues {
  /** Per branch: resistance in ohm; 0 joins its nodes, Infinity is no branch at all. */
  readonly ohm: Float64Array;
  /** Per branch: the voltage in series with it that raises its second node above its first. */
  readonly volt: Float64Array;
}

/** One branch: a resistance with a voltage source in series, which raises node `to` above node `from`. */
export interface DcBranch {
  readonly from: number;
  readonly to: number;
  /** Ohm; 0 is an ideal join, Infinity an open. */
  readonly ohm: number;
  /** Volt of the source in series; 0 when left out. */
  readonly volt?: number;
}

/** A network of branches between nodes numbered from 0. */
export interface DcNetwork {
  readonly nodeCount: number;
  readonly branches: readonly DcBranch[];
}

/**
 * Packs a network into typed arrays.
 *
 * @param network The network.
 * @returns Its shape and its values.
 * @throws RangeError if a branch names a node that does not exist, or has a resistance below 0 or a value that is no number.
 */
export function packNetwork(network: DcNetwork): { readonly shape: BranchShape; readonly values: BranchValues } {
  const { nodeCount, branches } = network;
  const from = new Int32Array(branches.length);
  const to = new Int32Array(branches.length);
  const ohm = new Float64Array(branches.length);
  const volt = new Float64Array(branches.length);
  branches.forEach((branch, at) => {
    for (const node of [branch.from, branch.to]) {
      if (!Number.isInteger(node) || node < 0 || node >= nodeCount)
        throw new RangeError(`Cannot pack branch ${at}: there is no node ${node} of ${nodeCount}`);
    }
    if (!(branch.ohm >= 0)) throw new RangeError(`Cannot pack branch ${at}: ${branch.ohm} ohm is no resistance`);
    if (!Number.isFinite(branch.volt ?? 0))
      throw new RangeError(`Cannot pack branch ${at}: ${branch.volt} V is no voltage`);
    from[at] = branch.from;
    to[at] = branch.to;
    ohm[at] = branch.ohm;
    volt[at] = branch.volt ?? 0;
  });
  return { shape: { nodeCount, from, to }, values: { ohm, volt } };
}
