import { allCases } from "../plan/cases.ts";
import { chooseTest, type ChosenTest } from "../plan/choose-test.ts";
import { rankTests, type RankedTest } from "../plan/rank-tests.ts";
import type { JobState } from "./job-state.ts";
import { makePlan, type JobPlan } from "./make-plan.ts";

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
 * @param state The job.
 * @returns The plan and the chosen check; nothing chosen if the cases are settled or no check tells anything more.
 */
export function planNext(state: JobState): PlannedCheck {
  const before = known.get(state);
  if (before) return before;
  const planned = planAnew(state);
  known.set(state, planned);
  return planned;
}

// The state of a job never changes, so neither does the plan that follows from it.
const known = new WeakMap<JobState, PlannedCheck>();

function planAnew(state: JobState): PlannedCheck {
  const plan = makePlan(state);
  const { problem } = plan;
  const cases = allCases(problem);
  const ranked = rankTests(problem, cases, { setup: problem.setup, tests: [...problem.tests.keys()] });
  const chosen = chooseTest(problem, cases, problem.setup, { candidates: 6, mostInside: 40, leastGain: 0.04, ranked });
  return { plan, chosen, ranked, stopMinutes: problem.leafMinutes?.(cases) ?? 0 };
}
