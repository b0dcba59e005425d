import type { BranchShape, BranchValues } from "./branch-set.ts";
import type { Clusters } from "./join-ideal.ts";
import type { EliminationPlan } from "./plan-elimination.ts";

/** A network after elimination: everything that is needed to ask for voltages and resistances. */
export interface Factor {
  readonly plan: EliminationPlan;
  /** Per slot: conductance in siemens at the moment its first cluster was eliminated, or left over between kept clusters. */
  readonly conductance: Float64Array;
  /** Per slot: conductance times source voltage, in ampere, positive where the source drives from the low to the high cluster. */
  readonly drive: Float64Array;
  /** Per step: sum of the conductances of the eliminated cluster; exactly 0 for the last cluster of an island. */
  readonly pivots: Float64Array;
}

/** A branch set with its plan. */
export interface PlannedShape {
  readonly shape: BranchShape;
  readonly clusters: Clusters;
  readonly plan: EliminationPlan;
}

/**
 * Eliminates cluster by cluster: a star of branches becomes the mesh between its outer ends. Sources stay in series with the
 * branches. No conductance is ever subtracted, so nothing cancels however far the resistances lie apart.
 *
 * A star of conductances g with source voltages e towards its middle becomes branches of `g[i] * g[j] / sum` with the voltage
 * `e[i] - e[j]`. The same elimination without sources is known for M-matrices as the one of Grassmann, Taksar and Heyman.
 *
 * Source: star-mesh transformation, A. Rosen, "A new network theorem", Journal of the IEE 62 (1924) 916-918 (from memory);
 * Grassmann, Taksar, Heyman, Operations Research 33 (1985) 1107-1116 (from memory). The step with sources: worked out in
 * docs/methods/electrics.md.
 */
export function eliminate({ shape, clusters, plan }: PlannedShape, values: BranchValues): Factor {
  const conductance = new Float64Array(plan.slotLow.length);
  const drive = new Float64Array(plan.slotLow.length);
  for (let branch = 0; branch < plan.branchSlots.length; branch++) {
    const slot = plan.branchSlots[branch] ?? -1;
    const ohm = values.ohm[branch] ?? Infinity;
    if (slot < 0 || ohm === Infinity) continue;
    const a = shape.from[branch] ?? 0;
    const b = shape.to[branch] ?? 0;
    const volt = (clusters.offset[a] ?? 0) - (clusters.offset[b] ?? 0) + (values.volt[branch] ?? 0);
    const isUp = clusters.ofNode[a] === plan.slotLow[slot];
    conductance[slot] = (conductance[slot] ?? 0) + 1 / ohm;
    drive[slot] = (drive[slot] ?? 0) + (isUp ? volt : -volt) / ohm;
  }
  const factor = { plan, conductance, drive, pivots: new Float64Array(plan.order.length) };
  for (let step = 0; step < plan.order.length; step++) eliminateStep(factor, step);
  return factor;
}

function eliminateStep({ plan, conductance, drive, pivots }: Factor, step: number): void {
  const start = plan.offsets[step] ?? 0;
  const end = plan.offsets[step + 1] ?? start;
  const cluster = plan.order[step] ?? 0;
  let sum = 0;
  for (let at = start; at < end; at++) sum += conductance[plan.slots[at] ?? 0] ?? 0;
  pivots[step] = sum;
  if (sum === 0) return;
  let pair = plan.pairOffsets[step] ?? 0;
  for (let first = start; first + 1 < end; first++) {
    const slot = plan.slots[first] ?? 0;
    const share = (conductance[slot] ?? 0) / sum;
    if (share === 0) {
      pair += end - first - 1;
      continue;
    }
    const node = plan.neighbours[first] ?? 0;
    // Volt towards the middle of the star.
    const volt = ((node < cluster ? 1 : -1) * (drive[slot] ?? 0)) / (conductance[slot] ?? 1);
    for (let second = first + 1; second < end; second++, pair++) {
      const otherSlot = plan.slots[second] ?? 0;
      const otherConductance = conductance[otherSlot] ?? 0;
      if (otherConductance === 0) continue;
      const other = plan.neighbours[second] ?? 0;
      const mesh = share * otherConductance;
      const otherDrive = (other < cluster ? 1 : -1) * (drive[otherSlot] ?? 0);
      const current = mesh * volt - share * otherDrive;
      const meshSlot = plan.pairSlots[pair] ?? 0;
      conductance[meshSlot] = (conductance[meshSlot] ?? 0) + mesh;
      drive[meshSlot] = (drive[meshSlot] ?? 0) + (node < other ? current : -current);
    }
  }
}
