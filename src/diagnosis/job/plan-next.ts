import { isSpecial } from "../belief/special-marks.ts";
import { classOf, cutClasses, type OutcomeClasses } from "../belief/cut-classes.ts";
import { UNKNOWN, type ScaleModel } from "../belief/reading-likelihood.ts";
import { faultyShare } from "../checks/hand-outcomes.ts";
import { isMeterCheck, type Check, type HandCheck } from "../checks/check.ts";
import { allCases } from "../plan/cases.ts";
import { chooseTest, type ChosenTest } from "../plan/choose-test.ts";
import { repairOrder } from "../plan/repair-order.ts";
import { repairMinutes } from "./repair-minutes.ts";
import { rankTests, type RankedTest } from "../plan/rank-tests.ts";
import type { PlanProblem, PlanTest } from "../plan/plan-problem.ts";
import { makeScaleModel } from "../predict/scale-model.ts";
import { spreadOf } from "../predict/spread-of.ts";
import type { JobState } from "./job-state.ts";
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

/** A plan with what was chosen from it. */
export interface PlannedCheck {
  readonly plan: JobPlan;
  readonly chosen: ChosenTest | undefined;
  /** Expected minutes of stopping here and trying the repairs in order. */
  readonly stopMinutes: number;
  /** Best first by information per minute. */
  readonly ranked: readonly RankedTest[];
}

/** Hypotheses below this share of the most likely one are left out of planning; they stay in the belief. */
const LEAST_SHARE = 0.004;
/** At most so many hypotheses are planned with. */
const MOST_HYPOTHESES = 90;
/** Draws of each hypothesis: a look or a fault that comes and goes may turn out either way. */
const DRAWS = 4;
/** Belief in one repair group at which checking ends. */
export const ENOUGH = 0.99;

/**
 * Chooses the next check of a job.
 *
 * @param state The job.
 * @returns The plan and the chosen check; nothing chosen if the cases are settled or no check tells anything more.
 */
export function planNext(state: JobState): PlannedCheck {
  const plan = makePlan(state);
  const { problem } = plan;
  const cases = allCases(problem);
  const chosen = chooseTest(problem, cases, problem.setup, { candidates: 6, mostInside: 40, leastGain: 0.04 });
  const ranked = rankTests(problem, cases, { setup: problem.setup, tests: [...problem.tests.keys()] });
  return { plan, chosen, ranked, stopMinutes: problem.leafMinutes?.(cases) ?? 0 };
}

/** Makes the planning problem of a job: the likely hypotheses as cases, the checks not yet done as tests. */
export function makePlan({ workup, belief, facts, setup }: JobState): JobPlan {
  const alive = aliveHypotheses(workup, belief);
  const done = new Set(facts.readings.map(({ check }) => check.key));
  const cases = Int32Array.from({ length: alive.length * DRAWS }, (_, index) => alive[Math.floor(index / DRAWS)] ?? 0);
  const tests: PlanTest[] = [];
  const checks: Check[] = [];
  const classes: (OutcomeClasses | undefined)[] = [];
  for (const check of workup.checks.values()) {
    if (done.has(check.key)) continue;
    const made = makeTest(workup, check, alive);
    if (made.test.outcomeCount < 2) continue;
    tests.push(made.test);
    classes.push(made.classes);
    checks.push(check);
  }
  const problem: PlanProblem = {
    weights: Float64Array.from(cases, (hypothesis) => (belief[hypothesis] ?? 0) / DRAWS),
    groups: Int32Array.from(cases, (hypothesis) => workup.hypotheses[hypothesis]?.group ?? -1),
    tests,
    setups: workup.setups,
    setup: workup.setups.numberOf(setup),
    stopShare: ENOUGH,
    leafMinutes: (left) => minutesOfRepairs(workup, cases, { left, belief }),
  };
  return { problem, checks, cases, classes };
}

/** A good part replaced costs more than its time, and a cause that is not proven comes back. Common practice, no source. */
const WRONG_REPAIR = 4;

/** Expected minutes of trying the repairs of some cases in the cheapest order. */
function minutesOfRepairs(
  { hypotheses, groups }: Workup,
  cases: Int32Array,
  { left, belief }: { readonly left: Int32Array; readonly belief: Float64Array },
): number {
  const weights = new Map<number, number>();
  for (const index of left) {
    const hypothesis = cases[index] ?? 0;
    const group = hypotheses[hypothesis]?.group ?? -1;
    weights.set(group, (weights.get(group) ?? 0) + (belief[hypothesis] ?? 0));
  }
  const repairs = [...weights].map(([group, weight]) => ({ weight, minutes: repairMinutes(groups[group] ?? "") }));
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

interface MadeTest {
  readonly test: PlanTest;
  readonly classes: OutcomeClasses | undefined;
}

function makeTest(workup: Workup, check: Check, alive: readonly number[]): MadeTest {
  const need = workup.setups.needOf(check.need);
  const { minutes } = check;
  if (!isMeterCheck(check)) {
    return {
      test: { outcomes: handOutcomes(workup, check, alive), outcomeCount: 2, minutes, need },
      classes: undefined,
    };
  }
  const hypotheses = alive.flatMap((index) => workup.hypotheses[index] ?? []);
  const unit = check.kind === "volts" ? "V" : "Ω";
  const model = makeScaleModel(hypotheses, { unit, ...workup.readings(check, alive) });
  const pooled = Float64Array.from([...model.points, ...model.others].filter((point) => point !== UNKNOWN));
  const classes = cutClasses(pooled, (point) => 3 * spreadOf(point, unit));
  return {
    test: { outcomes: meterOutcomes(model, classes, check.key), outcomeCount: classes.count, minutes, need },
    classes,
  };
}

function meterOutcomes({ points, others, otherShares }: ScaleModel, classes: OutcomeClasses, key: string): Uint8Array {
  const turn = turnOf(key);
  return Uint8Array.from({ length: points.length * DRAWS }, (_, index) => {
    const at = Math.floor(index / DRAWS);
    const isOther = quantile(index, turn) < (otherShares[at] ?? 0);
    const point = (isOther ? others[at] : points[at]) ?? 0;
    return point === UNKNOWN ? 0 : classOf(classes, point);
  });
}

function handOutcomes({ hypotheses }: Workup, check: HandCheck, alive: readonly number[]): Uint8Array {
  const turn = turnOf(check.key);
  const shares = alive.map((index) => faultyShare(check, hypotheses[index]));
  return Uint8Array.from({ length: alive.length * DRAWS }, (_, index) =>
    quantile(index, turn) < (shares[Math.floor(index / DRAWS)] ?? 0) ? 1 : 0,
  );
}

/** Draws stand evenly over 0 to 1, in another order for each hypothesis and check, so that chance in one check is not chance in all. */
function quantile(index: number, turn: number): number {
  const hypothesis = Math.floor(index / DRAWS);
  const draw = ((index % DRAWS) + turn + hypothesis * 3) % DRAWS;
  return (draw + 0.5) / DRAWS;
}

function turnOf(key: string): number {
  let sum = 0;
  for (let index = 0; index < key.length; index++) sum = (sum * 31 + key.charCodeAt(index)) % 9973;
  return sum % DRAWS;
}

/** The middle of an outcome class as a point of the axis, from the points that fall into it; undefined for special marks. */
export function pointsInClass(model: ScaleModel, classes: OutcomeClasses, wanted: number): readonly number[] {
  return [...model.points].filter(
    (point) => point !== UNKNOWN && !isSpecial(point) && classOf(classes, point) === wanted,
  );
}
