import { keptFor } from "../../base/index.ts";
import type { EnteredReading } from "../../job-records/index.ts";
import {
  classOf,
  cutClasses,
  isSpecial,
  toleranceOf,
  UNIT_OF_METER,
  UNKNOWN,
  type OutcomeClasses,
} from "../belief/meter-scale.ts";
import type { Hypothesis } from "../candidates/candidate.ts";
import { isMeterCheck, type Check, type InspectionCheck } from "../checks/check.ts";
import { COSTS, repairMinutes } from "../checks/cost-table.ts";
import { impliedBy } from "../checks/implied-readings.ts";
import { faultyShare } from "../checks/inspection-outcomes.ts";
import { chooseTest, rankTests, type ChosenTest, type RankedTest } from "../plan/choose-test.ts";
import { allCases, type PlanProblem, type PlanTest } from "../plan/plan-problem.ts";
import { repairOrder } from "../plan/repair-order.ts";
import { predicted, type PredictedReading } from "../predict/reading-model.ts";
import type { JobState } from "./job-state.ts";
import type { DiagnosisModel } from "./diagnosis-model.ts";

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
function makePlan({ model, belief, facts, setup }: JobState): JobPlan {
  const alive = aliveHypotheses(model, belief);
  const planned = { numbers: alive, hypotheses: alive.flatMap((index) => model.hypotheses[index] ?? []) };
  const done = new Set(facts.readings.map(({ check }) => check.key));
  const isImplied = impliedBy(
    facts.readings.flatMap(({ check, given }) => (isRead(given) ? (model.checks.get(check.key) ?? []) : [])),
  );
  const cases = Int32Array.from({ length: alive.length * DRAWS }, (_, index) => alive[Math.floor(index / DRAWS)] ?? 0);
  const tests: PlanTest[] = [];
  const checks: Check[] = [];
  const classes: (OutcomeClasses | undefined)[] = [];
  for (const check of model.checks.values()) {
    if (done.has(check.key) || isImplied(check)) continue;
    const made = makeTest(model, check, planned);
    if (made.test.outcomeCount < 2) continue;
    tests.push(made.test);
    classes.push(made.classes);
    checks.push(check);
  }
  const minutesOf = model.groups.map(repairMinutes);
  const problem: PlanProblem = {
    weights: Float64Array.from(cases, (hypothesis) => (belief[hypothesis] ?? 0) / DRAWS),
    groups: Int32Array.from(cases, (hypothesis) => model.hypotheses[hypothesis]?.group ?? -1),
    tests,
    setups: model.setups,
    setup: model.setups.numberOf(setup),
    stopShare: ENOUGH,
    leafMinutes: (left) => minutesOfRepairs(model, cases, { left, belief, minutesOf }),
  };
  return { problem, checks, cases, classes };
}

function isRead({ kind }: EnteredReading): boolean {
  return kind === "value" || kind === "overload" || kind === "unstable";
}

/** A good part replaced costs more than its time, and a cause that is not proven comes back. Common practice, no source. */
const WRONG_REPAIR = 2;

interface LeftCases {
  readonly left: Int32Array;
  readonly belief: Float64Array;
  /** Minutes of the repair of each group. */
  readonly minutesOf: readonly number[];
}

/** Expected minutes of trying the repairs of some cases in the cheapest order. */
function minutesOfRepairs(
  { hypotheses }: DiagnosisModel,
  cases: Int32Array,
  { left, belief, minutesOf }: LeftCases,
): number {
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
function aliveHypotheses({ hypotheses }: DiagnosisModel, belief: Float64Array): readonly number[] {
  const named = [...hypotheses.keys()];
  const share = (index: number): number => belief[index] ?? 0;
  const most = named.reduce((best, index) => Math.max(best, share(index)), 0);
  return named
    .filter((index) => share(index) >= LEAST_SHARE * most)
    .sort((a, b) => share(b) - share(a))
    .slice(0, MOST_HYPOTHESES)
    .sort((a, b) => a - b);
}

/** Draws of each hypothesis: a look or a fault that comes and goes may turn out either way. */
const DRAWS = 4;

/** Hypotheses that are planned with, and their numbers in the workup. */
interface AliveHypotheses {
  readonly numbers: readonly number[];
  readonly hypotheses: readonly Hypothesis[];
}

/** A check as a test of a plan. */
interface MadeTest {
  readonly test: PlanTest;
  readonly classes: OutcomeClasses | undefined;
}

/**
 * Turns a check into a test of a plan: which outcome each draw of each hypothesis would give.
 *
 * @param alive Hypotheses that are planned with; each becomes {@link DRAWS} cases next to each other.
 */
function makeTest(model: DiagnosisModel, check: Check, alive: AliveHypotheses): MadeTest {
  const { numbers, hypotheses } = alive;
  const need = model.setups.needOf(check.need);
  const minutes = check.minutes + COSTS.attentionMinutes;
  if (!isMeterCheck(check)) {
    return {
      test: { outcomes: handOutcomes(check, hypotheses), outcomeCount: 2, minutes, need },
      classes: undefined,
    };
  }
  const { kind, key } = check;
  const shown = predicted(hypotheses, model.readings(check, numbers));
  const samples = samplesOf(shown);
  if (samples.length <= 1 && !isSpecial(samples[0] ?? 0))
    return { test: { ...NO_TEST, minutes, need }, classes: undefined };
  const classes = cutClasses(samples, (point) => 3 * toleranceOf(point, UNIT_OF_METER[kind]));
  return {
    test: { outcomes: meterOutcomes(shown, classes, key), outcomeCount: classes.count, minutes, need },
    classes,
  };
}

/** A check that shows the same whatever the fault. */
const NO_TEST = { outcomes: new Uint8Array(0), outcomeCount: 1 } as const;

/** Every point of the axis that some hypothesis may show, those that follow each other once. */
function samplesOf({ points, others }: PredictedReading): Float64Array {
  const samples = new Float64Array(points.length + others.length);
  let count = 0;
  const add = (point: number): void => {
    if (point !== UNKNOWN && (count === 0 || !Object.is(samples[count - 1], point))) samples[count++] = point;
  };
  for (let at = 0; at < points.length; at++) {
    add(points[at] ?? UNKNOWN);
    add(others[at] ?? UNKNOWN);
  }
  return samples.subarray(0, count);
}

function meterOutcomes(
  { points, others, otherShares }: PredictedReading,
  classes: OutcomeClasses,
  key: string,
): Uint8Array {
  const turn = turnOf(key);
  const outcomes = new Uint8Array(points.length * DRAWS);
  const classAt = (point: number): number => (point === UNKNOWN ? 0 : classOf(classes, point));
  points.forEach((point, at) => {
    outcomes.fill(classAt(point), at * DRAWS, (at + 1) * DRAWS);
    const share = otherShares[at] ?? 0;
    if (share === 0) return;
    const other = classAt(others[at] ?? UNKNOWN);
    for (let index = at * DRAWS; index < (at + 1) * DRAWS; index++)
      if (quantile(index, turn) < share) outcomes[index] = other;
  });
  return outcomes;
}

function handOutcomes(check: InspectionCheck, hypotheses: readonly Hypothesis[]): Uint8Array {
  const turn = turnOf(check.key);
  const shares = hypotheses.map((hypothesis) => faultyShare(check, hypothesis));
  return Uint8Array.from({ length: hypotheses.length * DRAWS }, (_, index) =>
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

/** A plan with what was chosen from it. */
export interface PlannedCheck {
  readonly plan: JobPlan;
  readonly chosen: ChosenTest | undefined;
  /** Expected minutes of stopping here and trying the repairs in order. */
  readonly stopMinutes: number;
  /** Best first by information per minute. */
  readonly ranked: readonly RankedTest[];
}

/**
 * Chooses the next check of a job.
 *
 * @returns The plan and the chosen check; nothing chosen if the cases are settled or no check tells anything more.
 */
export const planNext = keptFor((state: JobState): PlannedCheck => {
  const plan = makePlan(state);
  const { problem } = plan;
  const cases = allCases(problem);
  const ranked = rankTests(problem, cases, { setup: problem.setup, tests: [...problem.tests.keys()] });
  const chosen = chooseTest(problem, cases, problem.setup, { candidates: 6, mostInside: 40, leastGain: 0.04, ranked });
  return { plan, chosen, ranked, stopMinutes: problem.leafMinutes?.(cases) ?? 0 };
});
