import type { Evidence } from "./evidence.ts";

/** A reading foreseen by less than this share of an even spread counts as improbable. */
const IMPROBABLE = 0.05;

/**
 * Whether a reading is improbable under everything that is believed: a reason to look at leads and state before building on it.
 *
 * @param evidence The reading.
 * @param before Probability of each hypothesis without this reading.
 * @param isNamed Which hypotheses name a fault; "something else" foresees nothing, so it excuses nothing.
 * @returns True if the named hypotheses together, each by its probability, give the reading less than a twentieth of what an even spread
 *   over all readings would.
 */
export function isSurprising(
  evidence: Evidence,
  before: ArrayLike<number>,
  isNamed: (index: number) => boolean,
): boolean {
  let foreseen = 0;
  let total = 0;
  evidence.likelihoods.forEach((likelihood, index) => {
    if (!isNamed(index)) return;
    foreseen += (before[index] ?? 0) * likelihood;
    total += before[index] ?? 0;
  });
  return foreseen < IMPROBABLE * evidence.even * total;
}
