import type { BranchShape, BranchValues } from "../../../src/simulation/solver/branch-set.ts";
import { lookAtValues, reduceValues, type DcBranch } from "../../../src/simulation/solver/reduce-network.ts";
import { solveValues } from "../../../src/simulation/solver/solve-network.ts";

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
function packNetwork(network: DcNetwork): { readonly shape: BranchShape; readonly values: BranchValues } {
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

/** Solves a network; its node `reference` stands at 0 V. */
export function solveNetwork(network: DcNetwork, reference: number): ReturnType<typeof solveValues> {
  const { shape, values } = packNetwork(network);
  return solveValues(shape, values, reference);
}

/** The network that everything except the kept nodes amounts to, or the sources that contradict each other. */
export function reduceNetwork(
  network: DcNetwork,
  keep: readonly number[],
):
  | { readonly kind: "reduced"; readonly network: DcNetwork }
  | Exclude<ReturnType<typeof reduceValues>, { readonly kind: "reduced" }> {
  const { shape, values } = packNetwork(network);
  const reduced = reduceValues(shape, values, keep);
  if (reduced.kind !== "reduced") return reduced;
  return { kind: "reduced", network: { nodeCount: keep.length, branches: reduced.branches } };
}

/** The equivalent source between two nodes of a network. */
export function lookFromTwoPoints(network: DcNetwork, first: number, second: number): ReturnType<typeof lookAtValues> {
  const { shape, values } = packNetwork(network);
  return lookAtValues(shape, values, [first, second]);
}
