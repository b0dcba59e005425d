import type { Factor } from "./eliminate.ts";

/**
 * Resistance between two clusters of one island, in ohm, from a factor that is there already: a sum of squares along their two
 * ways up the elimination order, so that nothing is subtracted at the end.
 *
 * With y the share of 1 A led in at one cluster that reaches the cluster of step k, the resistance is the sum over k of
 * (y of the first - y of the second) squared over the pivot of step k. Kept clusters count as joined.
 *
 * @param factor The factor.
 * @param pair The two clusters; that they lie in one island must be known beforehand.
 * @param scratch Zeros, one a cluster; zeros again afterwards.
 */
export function resistanceBetween(factor: Factor, pair: readonly [number, number], scratch: Float64Array): number {
  const [first, second] = pair;
  if (first === second) return 0;
  const { plan, pivots } = factor;
  let a = plan.stepOf[first] ?? -1;
  let b = plan.stepOf[second] ?? -1;
  if (a >= 0) scratch[first] = 1;
  if (b >= 0) scratch[second] = -1;
  let total = 0;
  while (a >= 0 || b >= 0) {
    const step = b < 0 || (a >= 0 && a < b) ? a : b;
    total += takeStep(factor, step, pivots[step] ?? 0, scratch);
    const parent = plan.parents[step] ?? -1;
    const next = parent < 0 ? -1 : (plan.stepOf[parent] ?? -1);
    const isShared = a === b;
    if (step === a) a = next;
    if (isShared || step === b) b = next;
  }
  return total;
}

/** Takes one cluster's current off the scratch, hands it to its neighbours, and returns its share of the sum. */
function takeStep({ plan, conductance }: Factor, step: number, pivot: number, scratch: Float64Array): number {
  const cluster = plan.order[step] ?? 0;
  const current = scratch[cluster] ?? 0;
  scratch[cluster] = 0;
  if (pivot === 0 || current === 0) return 0;
  const share = current / pivot;
  for (let at = plan.offsets[step] ?? 0; at < (plan.offsets[step + 1] ?? 0); at++) {
    const node = plan.neighbours[at] ?? 0;
    if ((plan.stepOf[node] ?? -1) >= 0)
      scratch[node] = (scratch[node] ?? 0) + share * (conductance[plan.slots[at] ?? 0] ?? 0);
  }
  return share * current;
}
