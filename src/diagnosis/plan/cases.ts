import type { PlanProblem, PlanTest } from "./plan-problem.ts";

/** Cases that are still possible, by number, in rising order. */
export type Cases = Int32Array;

/** Every case with a weight above 0. */
export function allCases(problem: PlanProblem): Cases {
  return Int32Array.from([...problem.weights.keys()].filter((index) => (problem.weights[index] ?? 0) > 0));
}

/** The weight that cases hold together. */
export function weightOf(problem: PlanProblem, cases: Cases): number {
  let sum = 0;
  for (const index of cases) sum += problem.weights[index] ?? 0;
  return sum;
}

/**
 * Splits cases by the outcome that a test would have.
 *
 * @returns One list a class, in order of the classes; empty where no case gives the class.
 */
export function splitCases(cases: Cases, test: PlanTest): readonly Cases[] {
  const counts = new Int32Array(test.outcomeCount);
  for (const index of cases) {
    const outcome = test.outcomes[index] ?? 0;
    counts[outcome] = (counts[outcome] ?? 0) + 1;
  }
  const parts = Array.from(counts, (count) => new Int32Array(count));
  const filled = new Int32Array(test.outcomeCount);
  for (const index of cases) {
    const outcome = test.outcomes[index] ?? 0;
    const part = parts[outcome];
    const at = filled[outcome] ?? 0;
    if (part) part[at] = index;
    filled[outcome] = at + 1;
  }
  return parts;
}

/** Whether the cases need no more telling apart: one group holds the share of the weight that the problem asks for. */
export function isSettled(problem: PlanProblem, cases: Cases): boolean {
  const { weights, groups, stopShare } = problem;
  let total = 0;
  let best = 0;
  let current = 0;
  let group = -1;
  for (const index of cases) {
    const weight = weights[index] ?? 0;
    if (groups[index] !== group) {
      group = groups[index] ?? -1;
      current = 0;
    }
    current += weight;
    total += weight;
    if (current > best) best = current;
  }
  return best >= stopShare * total * (1 - 1e-12);
}
