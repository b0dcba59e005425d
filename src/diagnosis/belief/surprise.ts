import type { Evidence } from "./evidence.ts";

/** Below this share a reading counts as improbable. */
const IMPROBABLE = 0.01;
/** A hypothesis with less than this probability does not speak for a reading. */
const ALIVE = 0.02;

/**
 * Whether a reading is improbable under everything that was still believed: a reason to look at leads and state before believing it.
 *
 * @param evidence The reading.
 * @param before Probability of each hypothesis without this reading.
 * @param named Which hypotheses name a fault; "something else" foresees nothing, so it excuses nothing.
 * @returns True if no hypothesis that was alive gives the reading more than a hundredth of what its own best hypothesis gives, or of an
 *   even spread if that is more.
 */
export function isSurprising(
  evidence: Evidence,
  before: ArrayLike<number>,
  named: (index: number) => boolean,
): boolean {
  const { likelihoods, even } = evidence;
  const largest = likelihoods.reduce((most, each) => Math.max(most, each), even);
  let bestAlive = 0;
  likelihoods.forEach((likelihood, index) => {
    if (named(index) && (before[index] ?? 0) >= ALIVE) bestAlive = Math.max(bestAlive, likelihood);
  });
  return bestAlive < IMPROBABLE * largest;
}
