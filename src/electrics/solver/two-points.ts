import type { BranchShape, BranchValues, DcNetwork } from "./branch-set.ts";
import { packNetwork } from "./pack-network.ts";
import { reduceValues } from "./reduce-network.ts";
import type { ContradictoryNetwork } from "./solve-network.ts";

/** What a network looks like from two of its nodes. */
export type TwoPoints =
  | { readonly kind: "connected"; readonly ohm: number; readonly openVolt: number }
  | { readonly kind: "apart" }
  | ContradictoryNetwork;

/**
 * The equivalent source between two nodes: the voltage with nothing connected between them, first against second, and the
 * resistance behind it, exact whatever the spread of the resistances.
 *
 * Source: Thevenin's theorem (textbook).
 *
 * @param network The network.
 * @param first The node at the red lead.
 * @param second The node at the black lead.
 * @returns Ohm and volt; `apart` if no current can flow from one to the other.
 * @example
 * ```ts
 * import { lookFromTwoPoints } from "ohmward/electrics";
 * const branches = [{ from: 0, to: 1, ohm: 1e6, volt: 12 }, { from: 1, to: 0, ohm: 1e6 }];
 * expect(lookFromTwoPoints({ nodeCount: 3, branches }, 1, 0)).toEqual({ kind: "connected", ohm: 5e5, openVolt: 6 });
 * expect(lookFromTwoPoints({ nodeCount: 3, branches }, 2, 0)).toEqual({ kind: "apart" });
 * ```
 */
export function lookFromTwoPoints(network: DcNetwork, first: number, second: number): TwoPoints {
  const { shape, values } = packNetwork(network);
  return lookAtValues(shape, values, [first, second]);
}

/** The same for a packed network. */
export function lookAtValues(shape: BranchShape, values: BranchValues, pair: readonly [number, number]): TwoPoints {
  if (pair[0] === pair[1]) return { kind: "connected", ohm: 0, openVolt: 0 };
  const reduced = reduceValues(shape, values, pair);
  if (reduced.kind === "contradictory") return reduced;
  const [branch] = reduced.network.branches;
  if (!branch) return { kind: "apart" };
  // The source of a branch raises its second node; the reading is the first against the second.
  const sign = branch.from === 0 ? -1 : 1;
  return { kind: "connected", ohm: branch.ohm, openVolt: sign * (branch.volt ?? 0) + 0 };
}
