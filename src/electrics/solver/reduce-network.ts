import { type BranchShape, type BranchValues, type DcBranch, type DcNetwork, packNetwork } from "./branch-set.ts";
import type { Clusters } from "./join-ideal.ts";
import { type ContradictoryNetwork, eliminate, prepareSolver } from "./solve-network.ts";

/** A smaller network between the nodes that were kept, numbered as they were listed. */
export interface ReducedNetwork {
  readonly kind: "reduced";
  readonly network: DcNetwork;
}

/**
 * Replaces everything except the kept nodes by the branches it amounts to between them, sources included. Seen from the kept
 * nodes nothing has changed.
 *
 * @param network The network.
 * @param keep The nodes to keep, each once.
 * @returns The small network, or the sources that contradict each other.
 * @throws RangeError if a branch is not well formed.
 */
export function reduceNetwork(network: DcNetwork, keep: readonly number[]): ReducedNetwork | ContradictoryNetwork {
  const { shape, values } = packNetwork(network);
  return reduceValues(shape, values, keep);
}

/** The same for a packed network. */
export function reduceValues(
  shape: BranchShape,
  values: BranchValues,
  keep: readonly number[],
): ReducedNetwork | ContradictoryNetwork {
  const prepared = prepareSolver(shape, values, keep);
  if (prepared.kind === "contradictory") return prepared;
  const { clusters, plan } = prepared.planned;
  // The first kept node of a cluster stands for it.
  const standsFor = new Map<number, number>();
  keep.forEach((node, at) => {
    const cluster = clusters.ofNode[node] ?? 0;
    if (!standsFor.has(cluster)) standsFor.set(cluster, at);
  });
  const factor = eliminate(prepared.planned, values);
  const branches = joinsInside(keep, clusters, standsFor);
  for (let slot = 0; slot < plan.slotLow.length; slot++) {
    const from = standsFor.get(plan.slotLow[slot] ?? -1);
    const to = standsFor.get(plan.slotHigh[slot] ?? -1);
    const siemens = factor.conductance[slot] ?? 0;
    if (from === undefined || to === undefined || siemens === 0) continue;
    const lift = offsetOf(clusters, keep[to]) - offsetOf(clusters, keep[from]);
    branches.push({ from, to, ohm: 1 / siemens, volt: (factor.drive[slot] ?? 0) / siemens + lift });
  }
  return { kind: "reduced", network: { nodeCount: keep.length, branches } };
}

function joinsInside(keep: readonly number[], clusters: Clusters, standsFor: ReadonlyMap<number, number>): DcBranch[] {
  return keep.flatMap((node, to) => {
    const from = standsFor.get(clusters.ofNode[node] ?? 0) ?? to;
    if (from === to) return [];
    return [{ from, to, ohm: 0, volt: offsetOf(clusters, node) - offsetOf(clusters, keep[from]) }];
  });
}

function offsetOf(clusters: Clusters, node: number | undefined): number {
  return clusters.offset[node ?? -1] ?? 0;
}

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
