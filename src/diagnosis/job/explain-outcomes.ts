import { formatQuantity } from "../../base/index.ts";
import { classOf, FLOATING, fromScale, isSpecial, UNIT_OF_METER, UNKNOWN } from "../belief/meter-scale.ts";
import { isMeterCheck, type InspectionCheck, type MeterCheck } from "../checks/check.ts";
import { outcomesOf } from "../checks/inspection-outcomes.ts";
import { allCases, splitCases, weightOf } from "../plan/plan-problem.ts";
import { scaleModelOf } from "./evidence-of-reading.ts";
import type { JobState } from "./job-state.ts";
import type { JobPlan } from "./make-plan.ts";

/** A possible cause with its probability. */
export interface CandidateProbability {
  /** Repair group. */
  readonly group: number;
  readonly label: string;
  readonly share: number;
}

/** One outcome of a check: its probability and the causes that remain. */
export interface ExpectedOutcome {
  readonly label: string;
  readonly share: number;
  /** Most probable causes after this outcome, before caution is applied to it. */
  readonly leaves: readonly CandidateProbability[];
}

/** Outcomes below this probability are left out of the explanation. */
const LEAST_SHARE = 0.005;

/**
 * Says what each outcome of a planned check would mean.
 *
 * @param planned `test`, position of the check in the plan; `labels`, what each outcome is called in the order of the classes, absent where
 *   they are named by the predicted readings.
 * @returns The outcomes that may come, most likely first; none if the plan does not hold the check.
 */
export function explainOutcomes(
  state: JobState,
  plan: JobPlan,
  { test, labels = outcomeLabels(state, plan, test) }: { readonly test: number; readonly labels?: readonly string[] },
): readonly ExpectedOutcome[] {
  const { problem } = plan;
  const planTest = problem.tests[test];
  const cases = allCases(problem);
  const total = weightOf(problem, cases);
  if (!planTest || total <= 0) return [];
  return splitCases(cases, planTest)
    .map((part, outcome): ExpectedOutcome => {
      const weight = weightOf(problem, part);
      const shares = new Map<number, number>();
      for (const index of part) {
        const group = problem.groups[index] ?? -1;
        shares.set(group, (shares.get(group) ?? 0) + (problem.weights[index] ?? 0) / weight);
      }
      const leaves = [...shares]
        .map(([group, share]) => ({ group, label: state.model.groups[group] ?? "", share }))
        .sort((a, b) => b.share - a.share)
        .slice(0, 5);
      return { label: labels[outcome] ?? "", share: weight / total, leaves };
    })
    .filter(({ share }) => share >= LEAST_SHARE)
    .sort((a, b) => b.share - a.share);
}

function outcomeLabels(state: JobState, plan: JobPlan, test: number): readonly string[] {
  const check = plan.checks[test];
  const classes = plan.classes[test];
  if (!check) return [];
  if (!isMeterCheck(check) || !classes) return isMeterCheck(check) ? [] : passOrFail(check);
  const readingModel = scaleModelOf(state.model, check, [...new Set(plan.cases)]);
  const points = [...readingModel.points, ...readingModel.others].filter((point) => point !== UNKNOWN);
  return Array.from({ length: classes.count }, (_, wanted) => {
    const inside = points.filter((point) => classOf(classes, point) === wanted);
    return labelOf(check, inside);
  });
}

/** The outcomes of a check without a meter as the plan counts them: the normal one, and all others as one. */
function passOrFail(check: InspectionCheck): readonly string[] {
  const [normal, ...others] = outcomesOf(check).map(({ label }) => label);
  return [normal ?? "", others.join("; or: ")];
}

/** "about 5.01 V", "0.4 V to 0.6 V", "OL (over range)", "unstable reading". */
function labelOf({ kind }: MeterCheck, inside: readonly number[]): string {
  const unit = UNIT_OF_METER[kind];
  // The way to the scale and back leaves crumbs of rounding, which are no value.
  const values = inside.filter((point) => !isSpecial(point)).map((point) => Number(fromScale(point, unit).toFixed(9)));
  if (values.length === 0) {
    if (inside.some((point) => point === FLOATING)) return "floating point: not 0 V, unstable reading";
    return inside.some((point) => Number.isNaN(point)) ? "unstable reading" : "OL (over range)";
  }
  const [low, high] = [Math.min(...values), Math.max(...values)].map((value) => formatQuantity(value, unit, 2));
  return low === high ? `about ${low ?? ""}` : `${low ?? ""} to ${high ?? ""}`;
}
