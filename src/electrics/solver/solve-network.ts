import { backSubstitute } from "./back-substitute.ts";
import type { BranchShape, BranchValues, DcNetwork } from "./branch-set.ts";
import { eliminate, type Factor, type PlannedShape } from "./eliminate.ts";
import { packNetwork } from "./pack-network.ts";
import { prepareSolver } from "./prepare-solver.ts";

/** Voltages of a network, with what is needed to ask more of it. */
export interface SolvedNetwork {
  readonly kind: "solved";
  readonly planned: PlannedShape;
  readonly factor: Factor;
  /** Per node: volt above the reference of its island. */
  readonly volts: Float64Array;
  /** Per node: its island, by number. Between two islands no current can flow and no voltage is defined. */
  readonly islands: Int32Array;
}

/** Ideal sources that cannot all be true: the branches of a loop that does not add up. */
export interface ContradictoryNetwork {
  readonly kind: "contradictory";
  readonly branches: readonly number[];
}

/**
 * Solves a network of resistances and voltage sources exactly as it is: an open is no branch, an ideal join is one node, nothing
 * leaks to ground that is not a branch.
 *
 * @param network The network.
 * @param reference The node that stands at 0 V. A node in another island is given against some node of its own island.
 * @returns The voltages and islands, or the sources that contradict each other.
 * @throws RangeError if a branch is not well formed.
 * @example
 * ```ts
 * import { solveNetwork } from "ohmward/electrics";
 * const solved = solveNetwork({ nodeCount: 4, branches: [
 *   { from: 0, to: 1, ohm: 2, volt: 12 },
 *   { from: 1, to: 2, ohm: 4 },
 *   { from: 2, to: 0, ohm: 6 },
 * ] }, 0);
 * if (solved.kind !== "solved") throw new Error("contradictory");
 * expect([...solved.volts.slice(0, 3)].map((volt) => Number(volt.toFixed(12)))).toEqual([0, 10, 6]);
 * expect(solved.islands[3]).not.toBe(solved.islands[0]);
 * ```
 */
export function solveNetwork(network: DcNetwork, reference: number): SolvedNetwork | ContradictoryNetwork {
  const { shape, values } = packNetwork(network);
  return solveValues(shape, values, reference);
}

/** The same for a packed network. */
export function solveValues(
  shape: BranchShape,
  values: BranchValues,
  reference: number,
): SolvedNetwork | ContradictoryNetwork {
  const prepared = prepareSolver(shape, values, [reference]);
  if (prepared.kind === "contradictory") return prepared;
  const { planned } = prepared;
  const { clusters } = planned;
  const factor = eliminate(planned, values);
  const found = backSubstitute(factor);
  const volts = new Float64Array(shape.nodeCount);
  const islands = new Int32Array(shape.nodeCount);
  // The reference need not be the node its cluster counts from.
  const lift = clusters.offset[reference] ?? 0;
  const home = found.islands[clusters.ofNode[reference] ?? 0] ?? -1;
  for (let node = 0; node < shape.nodeCount; node++) {
    const cluster = clusters.ofNode[node] ?? 0;
    const island = found.islands[cluster] ?? 0;
    islands[node] = island;
    volts[node] = (found.volts[cluster] ?? 0) + (clusters.offset[node] ?? 0) - (island === home ? lift : 0);
  }
  return { kind: "solved", planned, factor, volts, islands };
}
