import type { Factor } from "./eliminate.ts";

/** Voltages and islands of the clusters of a network. */
export interface ClusterVolts {
  /** Per cluster: volt above the reference of its island. */
  readonly volts: Float64Array;
  /** Per cluster: the cluster that is the reference of its island. Two clusters with different ones share no current path. */
  readonly islands: Int32Array;
}

/**
 * Works out the voltage of every eliminated cluster from those eliminated after it. Kept clusters stand at 0 V, and so does the last
 * cluster of an island without a kept one: only differences inside an island mean anything.
 */
export function backSubstitute({ plan, conductance, drive, pivots }: Factor): ClusterVolts {
  const volts = new Float64Array(plan.clusterCount);
  const islands = new Int32Array(plan.clusterCount);
  for (let cluster = 0; cluster < islands.length; cluster++) islands[cluster] = cluster;
  for (let step = plan.order.length - 1; step >= 0; step--) {
    const pivot = pivots[step] ?? 0;
    if (pivot === 0) continue;
    const cluster = plan.order[step] ?? 0;
    let sum = 0;
    for (let at = plan.offsets[step] ?? 0; at < (plan.offsets[step + 1] ?? 0); at++) {
      const slot = plan.slots[at] ?? 0;
      const siemens = conductance[slot] ?? 0;
      if (siemens === 0) continue;
      const node = plan.neighbours[at] ?? 0;
      sum += siemens * (volts[node] ?? 0) + (node < cluster ? 1 : -1) * (drive[slot] ?? 0);
      islands[cluster] = islands[node] ?? node;
    }
    volts[cluster] = sum / pivot;
  }
  return { volts, islands };
}

/**
 * The voltages that 1 A makes that is led into one cluster and out of another, all sources at 0 V. Both must lie in one island.
 * It is also how much a reading between the two changes for each ampere led in elsewhere (reciprocity).
 */
export function unitCurrentVolts(factor: Factor, into: number, outOf: number): Float64Array {
  const { plan, conductance, pivots } = factor;
  const volts = new Float64Array(plan.clusterCount);
  if (into === outOf) return volts;
  const current = new Float64Array(plan.clusterCount);
  current[into] = 1;
  current[outOf] = -1;
  for (let step = 0; step < plan.order.length; step++) {
    const share = (current[plan.order[step] ?? 0] ?? 0) / (pivots[step] ?? 0);
    if (share === 0 || pivots[step] === 0) continue;
    for (let at = plan.offsets[step] ?? 0; at < (plan.offsets[step + 1] ?? 0); at++) {
      const node = plan.neighbours[at] ?? 0;
      current[node] = (current[node] ?? 0) + share * (conductance[plan.slots[at] ?? 0] ?? 0);
    }
  }
  for (let step = plan.order.length - 1; step >= 0; step--) {
    const pivot = pivots[step] ?? 0;
    if (pivot === 0) continue;
    const cluster = plan.order[step] ?? 0;
    let sum = current[cluster] ?? 0;
    for (let at = plan.offsets[step] ?? 0; at < (plan.offsets[step + 1] ?? 0); at++)
      sum += (conductance[plan.slots[at] ?? 0] ?? 0) * (volts[plan.neighbours[at] ?? 0] ?? 0);
    volts[cluster] = sum / pivot;
  }
  return volts;
}
