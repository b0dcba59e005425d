import { cautiousLikelihoods, CAUTION, type Caution, type Evidence } from "./evidence.ts";

/**
 * How likely each hypothesis is after some readings. The order of the readings does not matter, except that of two readings of one
 * check the later one counts.
 *
 * @param priors Weights beforehand, at least 0.
 * @param readings The readings.
 * @param caution How much one reading may convince.
 * @returns Probabilities that add up to 1; those of the priors if nothing was read.
 * @throws RangeError if no prior is above 0 or a reading speaks of another number of hypotheses.
 * @example
 * ```ts
 * import { updateBelief } from "ohmward/diagnosis";
 * const reading = { key: "a", likelihoods: Float64Array.of(1, 0), even: 0.5 };
 * const once = updateBelief([1, 1], [reading]);
 * expect([...updateBelief([1, 1], [reading, reading])]).toEqual([...once]);
 * expect(once[0]).toBeCloseTo(0.985);
 * ```
 */
export function updateBelief(
  priors: ArrayLike<number>,
  readings: readonly Evidence[],
  caution: Caution = CAUTION,
): Float64Array {
  const logs = Float64Array.from(priors, (weight) => Math.log(weight));
  for (const reading of new Map(readings.map((each) => [each.key, each])).values()) {
    if (reading.likelihoods.length !== logs.length) {
      throw new RangeError(`Cannot update: "${reading.key}" speaks of ${reading.likelihoods.length} hypotheses`);
    }
    const said = logsOf(reading, caution);
    for (let index = 0; index < logs.length; index++) logs[index] = (logs[index] ?? 0) + (said[index] ?? 0);
  }
  const largest = logs.reduce((most, each) => Math.max(most, each), -Infinity);
  if (!Number.isFinite(largest)) throw new RangeError("Cannot update: some hypothesis needs a prior above 0");
  const weights = logs.map((each) => Math.exp(each - largest));
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  return weights.map((weight) => weight / total);
}

// A reading never changes, and every later belief counts it again.
const known = new WeakMap<Evidence, { readonly caution: Caution; readonly logs: Float64Array }>();

/** Logarithms of the likelihoods that a reading counts with. */
function logsOf(reading: Evidence, caution: Caution): Float64Array {
  const before = known.get(reading);
  if (before?.caution === caution) return before.logs;
  const logs = cautiousLikelihoods(reading, caution).map((likelihood) => Math.log(likelihood));
  known.set(reading, { caution, logs });
  return logs;
}
