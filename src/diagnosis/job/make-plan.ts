import type { OutcomeClasses } from "../belief/cut-classes.ts";
import type { Check } from "../checks/check.ts";
import type { PlanProblem, PlanTest } from "../plan/plan-problem.ts";
import { repairOrder } from "../plan/repair-order.ts";
import type { JobState } from "./job-state.ts";
import { DRAWS, makeTest } from "./make-test.ts";
import { repairMinutes } from "./repair-minutes.ts";
import type { Workup } from "./workup.ts";

/** The planning problem of a job at one moment, with the checks and hypotheses its numbers stand for. */
export interface JobPlan {
  readonly problem: PlanProblem;
  readonly checks: readonly Check[];
  /** Hypothesis of each case. */
  readonly cases: Int32Array;
  /** Outcome classes of each meter check; undefined for a check without a meter. */
  readonly classes: readonly (OutcomeClasses | undefined)[];
}

/** Hypotheses below this share of the most likely one are left out of planning; they stay in the belief. */
const LEAST_SHARE = 0.004;
/** At most so many hypotheses are planned with. */
const MOST_HYPOTHESES = 90;
/** Belief in one repair group at which checking ends. */
export const ENOUGH = 0.99;

/** Makes the planning problem of a job: the likely hypotheses as cases, the checks not yet done as tests. */
export function makePlan({ workup, belief, facts, setup }: JobState): JobPlan {
  const alive = aliveHypotheses(workup, belief);
  const planned = { numbers: alive, hypotheses: alive.flatMap((index) => workup.hypotheses[index] ?? []) };
  const done = new Set(facts.readings.map(({ check }) => check.key));
  const cases = Int32Array.from({ length: alive.length * DRAWS }, (_, index) => alive[Math.floor(index / DRAWS)] ?? 0);
  const tests: PlanTest[] = [];
  const checks: Check[] = [];
  const classes: (OutcomeClasses | undefined)[] = [];
  for (const check of workup.checks.values()) {
    if (done.has(check.key)) continue;
    const made = makeTest(workup, check, planned);
    if (made.test.outcomeCount < 2) continue;
    tests.push(made.test);
    classes.push(made.classes);
    checks.push(check);
  }
  const minutesOf = workup.groups.map(repairMinutes);
  const problem: PlanProblem = {
    weights: Float64Array.from(cases, (hypothesis) => (belief[hypothesis] ?? 0) / DRAWS),
    groups: Int32Array.from(cases, (hypothesis) => workup.hypotheses[hypothesis]?.group ?? -1),
    tests,
    setups: workup.setups,
    setup: workup.setups.numberOf(setup),
    stopShare: ENOUGH,
    leafMinutes: (left) => minutesOfRepairs(workup, cases, { left, belief, minutesOf }),
  };
  return { problem, checks, cases, classes };
}

/** A good part replaced costs more than its time, and a cause that is not proven comes back. Common practice, no source. */
const WRONG_REPAIR = 4;

interface LeftCases {
  readonly left: Int32Array;
  readonly belief: Float64Array;
  /** Minutes of the repair of each group. */
  readonly minutesOf: readonly number[];
}

/** Expected minutes of trying the repairs of some cases in the cheapest order. */
function minutesOfRepairs({ hypotheses }: Workup, cases: Int32Array, { left, belief, minutesOf }: LeftCases): number {
  const weights = new Map<number, number>();
  for (const index of left) {
    const hypothesis = cases[index] ?? 0;
    const group = hypotheses[hypothesis]?.group ?? -1;
    weights.set(group, (weights.get(group) ?? 0) + (belief[hypothesis] ?? 0));
  }
  const repairs = [...weights].map(([group, weight]) => ({ weight, minutes: minutesOf[group] ?? 0 }));
  const { order, minutes } = repairOrder(repairs);
  const total = repairs.reduce((sum, { weight }) => sum + weight, 0);
  const last = order.reduce((sum, position) => {
    const repair = repairs[position];
    return sum + (repair ? (repair.weight / total) * repair.minutes : 0);
  }, 0);
  // What is spent on repairs before the right one counts as waste.
  return last + WRONG_REPAIR * (minutes - last);
}

/** Hypotheses worth planning with, in the order of their numbers, so that those of a group stay together. */
function aliveHypotheses({ hypotheses }: Workup, belief: Float64Array): readonly number[] {
  const named = [...hypotheses.keys()];
  const share = (index: number): number => belief[index] ?? 0;
  const most = named.reduce((best, index) => Math.max(best, share(index)), 0);
  return named
    .filter((index) => share(index) >= LEAST_SHARE * most)
    .sort((a, b) => share(b) - share(a))
    .slice(0, MOST_HYPOTHESES)
    .sort((a, b) => a - b);
}
