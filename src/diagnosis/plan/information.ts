import type { Cases } from "./cases.ts";
import type { PlanProblem, PlanTest } from "./plan-problem.ts";

/**
 * Entropy of weights, in bits.
 *
 * @param weights At least 0; they need not add up to 1.
 * @example
 * ```ts
 * import { entropyBits } from "ohmward/diagnosis";
 * expect(entropyBits([0.4, 0.2, 0.2, 0.1, 0.1])).toBeCloseTo(2.1219, 4);
 * ```
 */
export function entropyBits(weights: readonly number[]): number {
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  if (total <= 0) return 0;
  return Math.log2(total) - weights.reduce((sum, weight) => sum + timesLog(weight), 0) / total;
}

/**
 * What a test is expected to tell about the group of the true case: the mutual information of outcome and group.
 *
 * @param problem Weights and groups.
 * @param cases Cases that are still possible, cases of a group next to each other.
 * @param test The test.
 * @returns Bits, at least 0.
 */
export function informationBits(problem: PlanProblem, cases: Cases, test: PlanTest): number {
  const { weights, groups } = problem;
  const { outcomes, outcomeCount } = test;
  const ofClass = new Float64Array(outcomeCount);
  let total = 0;
  let apart = 0;
  let end = 0;
  while (end < cases.length) {
    const start = end;
    const group = groups[cases[start] ?? 0];
    const first = outcomes[cases[start] ?? 0] ?? 0;
    let inGroup = 0;
    let isOneClass = true;
    for (; end < cases.length && groups[cases[end] ?? 0] === group; end++) {
      const index = cases[end] ?? 0;
      const outcome = outcomes[index] ?? 0;
      const weight = weights[index] ?? 0;
      ofClass[outcome] = (ofClass[outcome] ?? 0) + weight;
      inGroup += weight;
      if (outcome !== first) isOneClass = false;
    }
    total += inGroup;
    // A group with one outcome adds the same to the joint entropy as to its own.
    if (!isOneClass) apart += splitTerm(problem, test, cases.subarray(start, end)) - timesLog(inGroup);
  }
  if (total <= 0) return 0;
  const classTerm = ofClass.reduce((sum, weight) => sum + timesLog(weight), 0);
  const bits = (apart - classTerm + timesLog(total)) / total;
  // Rounding leaves some 1e-16 where there is nothing to learn.
  return bits < 1e-12 ? 0 : bits;
}

/** Sum over the outcomes of weight times its logarithm, within one group. */
function splitTerm({ weights }: PlanProblem, { outcomes, outcomeCount }: PlanTest, cases: Cases): number {
  const ofClass = new Float64Array(outcomeCount);
  for (const index of cases) {
    const outcome = outcomes[index] ?? 0;
    ofClass[outcome] = (ofClass[outcome] ?? 0) + (weights[index] ?? 0);
  }
  return ofClass.reduce((sum, weight) => sum + timesLog(weight), 0);
}

function timesLog(weight: number): number {
  return weight > 0 ? weight * Math.log2(weight) : 0;
}
