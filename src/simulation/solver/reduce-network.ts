import type { BranchShape, BranchValues } from "./branch-set.ts";
import type { Clusters } from "./merge-ideal-nodes.ts";
import { eliminate, prepareSolver, type ContradictoryNetwork } from "./solve-network.ts";

/** A smaller network between the nodes that were kept, numbered as they were listed. */
interface ReducedNetwork {
  readonly kind: "reduced";
  readonly branches: readonly DcBranch[];
}

/**
 * Replaces everything except the kept nodes by the branches it amounts to between them, sources included. Seen from the kept
 * nodes nothing has changed.
 *
 * @param keep The nodes to keep, each once.
 * @returns The small network, or the sources that contradict each other.
 */
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
  return { kind: "reduced", branches };
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

/** One branch: a resistance with a voltage source in series, which raises node `to` above node `from`. */
export interface DcBranch {
  readonly from: number;
  readonly to: number;
  /** Ohm; 0 is an ideal join, Infinity an open. */
  readonly ohm: number;
  /** Volt of the source in series; 0 when left out. */
  readonly volt?: number;
}

/** What a network looks like from two of its nodes. */
type TwoPoints =
  | { readonly kind: "connected"; readonly ohm: number; readonly openVolt: number }
  | { readonly kind: "apart" }
  | ContradictoryNetwork;

/**
 * The equivalent source between two nodes: the voltage with nothing connected between them, first against second, and the
 * resistance behind it, exact whatever the spread of the resistances; `apart` if no current can flow from one to the other.
 *
 * Source: Thevenin's theorem (textbook).
 *
 * @param pair The nodes at the red and the black lead.
 */
export function lookAtValues(shape: BranchShape, values: BranchValues, pair: readonly [number, number]): TwoPoints {
  if (pair[0] === pair[1]) return { kind: "connected", ohm: 0, openVolt: 0 };
  const reduced = reduceValues(shape, values, pair);
  if (reduced.kind === "contradictory") return reduced;
  const [branch] = reduced.branches;
  if (!branch) return { kind: "apart" };
  // The source of a branch raises its second node; the reading is the first against the second.
  const sign = branch.from === 0 ? -1 : 1;
  return { kind: "connected", ohm: branch.ohm, openVolt: sign * (branch.volt ?? 0) + 0 };
}
