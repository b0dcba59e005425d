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

const classWeights = (count: number): Float64Array => new Float64Array(count);

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
  const ofClass = classWeights(outcomeCount);
  const ofGroup = classWeights(outcomeCount);
  let total = 0;
  let joint = 0;
  let groupTerm = 0;
  let inGroup = 0;
  let group = -1;
  const closeGroup = (): void => {
    for (let outcome = 0; outcome < outcomeCount; outcome++) {
      joint += timesLog(ofGroup[outcome] ?? 0);
      ofGroup[outcome] = 0;
    }
    groupTerm += timesLog(inGroup);
    inGroup = 0;
  };
  for (const index of cases) {
    const weight = weights[index] ?? 0;
    if (groups[index] !== group) {
      if (group >= 0) closeGroup();
      group = groups[index] ?? -1;
    }
    const outcome = outcomes[index] ?? 0;
    ofClass[outcome] = (ofClass[outcome] ?? 0) + weight;
    ofGroup[outcome] = (ofGroup[outcome] ?? 0) + weight;
    inGroup += weight;
    total += weight;
  }
  closeGroup();
  if (total <= 0) return 0;
  const classTerm = ofClass.reduce((sum, weight) => sum + timesLog(weight), 0);
  const bits = (joint - groupTerm - classTerm + timesLog(total)) / total;
  // Rounding leaves some 1e-16 where there is nothing to learn.
  return bits < 1e-12 ? 0 : bits;
}

function timesLog(weight: number): number {
  return weight > 0 ? weight * Math.log2(weight) : 0;
}
