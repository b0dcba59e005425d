import type { BranchShape, BranchValues, DcBranch, DcNetwork } from "./branch-set.ts";
import { eliminate } from "./eliminate.ts";
import type { Clusters } from "./join-ideal.ts";
import { packNetwork } from "./pack-network.ts";
import { prepareSolver } from "./prepare-solver.ts";
import type { ContradictoryNetwork } from "./solve-network.ts";

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
