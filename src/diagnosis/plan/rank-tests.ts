import type { Cases } from "./cases.ts";
import { informationBits } from "./information.ts";
import type { PlanProblem } from "./plan-problem.ts";

/** A test with what it would cost and tell now. */
export interface RankedTest {
  /** Position in the tests of the problem. */
  readonly test: number;
  /** Minutes for getting ready and testing. */
  readonly minutes: number;
  /** Minutes for the test alone. */
  readonly ownMinutes: number;
  readonly bits: number;
  readonly bitsPerMinute: number;
  /** The set-up after the test. */
  readonly next: number;
}

/** A test that is all but free would otherwise beat every other by an endless ratio. */
const LEAST_MINUTES = 0.01;

/**
 * Ranks tests by expected information per minute, the time for getting ready included.
 *
 * @param problem The problem.
 * @param cases Cases that are still possible.
 * @param from Where the work stands, and the positions of the tests to look at.
 * @returns The tests that tell something, best first; ties in the order given.
 */
export function rankTests(
  problem: PlanProblem,
  cases: Cases,
  from: { readonly setup: number; readonly tests: readonly number[] },
): readonly RankedTest[] {
  const { setup, tests } = from;
  const ranked: RankedTest[] = [];
  for (const test of tests) {
    const plan = problem.tests[test];
    if (!plan) continue;
    const bits = informationBits(problem, cases, plan);
    if (bits <= 0) continue;
    const { minutes, next } = problem.setups.change(setup, plan.need);
    const all = minutes + plan.minutes;
    ranked.push({
      test,
      minutes: all,
      ownMinutes: plan.minutes,
      bits,
      bitsPerMinute: bits / Math.max(all, LEAST_MINUTES),
      next,
    });
  }
  return ranked.sort((a, b) => b.bitsPerMinute - a.bitsPerMinute);
}
