import type { BranchShape, BranchValues, DcNetwork } from "./branch-set.ts";

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
