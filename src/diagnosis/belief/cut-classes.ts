import { FLOATING, OVER_RANGE } from "./meter-scale.ts";

/** Outcome classes of a check: cuts between values, and whether the special marks occur. */
export interface OutcomeClasses {
  /** Points of the axis between two classes of values, rising. */
  readonly cuts: readonly number[];
  readonly hasOverRange: boolean;
  readonly hasUnsteady: boolean;
  readonly count: number;
}

/** Most classes a check is planned with. */
const MOST_CLASSES = 8;

/**
 * Cuts the axis into outcome classes at the largest gaps between the samples of all hypotheses.
 *
 * @param pooled Samples of every hypothesis that matters, in any order, special marks among them.
 * @param leastGap No cut is made in a gap narrower than this around a point, because a reading could not tell the two sides apart.
 * @returns At most 8 classes. A floating lead counts with the values around 0, which is what the meter shows.
 */
export function cutClasses(pooled: Float64Array, leastGap: (point: number) => number): OutcomeClasses {
  const hasOverRange = pooled.includes(OVER_RANGE);
  const hasUnsteady = pooled.some((sample) => Number.isNaN(sample));
  const values = pooled
    .filter((sample) => !Number.isNaN(sample) && sample !== OVER_RANGE)
    .map((sample) => (sample === FLOATING ? 0 : sample))
    .sort();
  const gaps: { readonly at: number; readonly width: number }[] = [];
  for (let index = 1; index < values.length; index++) {
    const low = values[index - 1] ?? 0;
    const width = (values[index] ?? 0) - low;
    if (width === 0) continue;
    const at = low + width / 2;
    const least = leastGap(at);
    if (width >= least) gaps.push({ at, width: width / least });
  }
  const special = Number(hasOverRange) + Number(hasUnsteady);
  const most = Math.max(0, MOST_CLASSES - special - 1);
  const cuts = gaps
    .sort((a, b) => b.width - a.width)
    .slice(0, most)
    .map(({ at }) => at)
    .sort((a, b) => a - b);
  return { cuts, hasOverRange, hasUnsteady, count: cuts.length + 1 + special };
}

/**
 * The class that a sample or a reading falls into: values by rising cut, then over range, then unsteady.
 *
 * @param classes The classes.
 * @param sample A point of the axis or a special mark.
 */
export function classOf(classes: OutcomeClasses, sample: number): number {
  const { cuts, hasOverRange, hasUnsteady } = classes;
  if (Number.isNaN(sample)) return hasUnsteady ? cuts.length + 1 + Number(hasOverRange) : 0;
  if (sample === OVER_RANGE) return hasOverRange ? cuts.length + 1 : cuts.length;
  const value = sample === FLOATING ? 0 : sample;
  let index = 0;
  while (index < cuts.length && value > (cuts[index] ?? Infinity)) index += 1;
  return index;
}
