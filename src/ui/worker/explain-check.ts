import { formatQuantity } from "../../base/index.ts";
import {
  explainOutcomes,
  fromScale,
  isMeterCheck,
  outcomesOf,
  planNext,
  type Check,
  type ExpectedOutcome,
  type JobState,
  type OutcomeClasses,
} from "../../diagnosis/index.ts";

/**
 * Says what each outcome of a check that was not proposed would leave.
 *
 * @param state The job.
 * @param check Any permitted check.
 * @returns The outcomes, most likely first; empty if the check was done already or tells nothing.
 */
export function explainCheck(state: JobState, check: Check): readonly ExpectedOutcome[] {
  const { plan } = planNext(state);
  const test = plan.checks.findIndex(({ key }) => key === check.key);
  return explainOutcomes(state, plan, { test, labels: labelsOf(check, plan.classes[test]) });
}

/** Outcome classes by their limits: "below 0.9 V", "0.9 V to 4.2 V", "4.2 V and more", then the special ones. */
function labelsOf(check: Check, classes: OutcomeClasses | undefined): readonly string[] {
  if (!isMeterCheck(check)) return outcomesOf(check).map(({ label }) => label);
  if (!classes) return [];
  const unit = check.kind === "volts" ? "V" : "Ω";
  const cuts = classes.cuts.map((cut) => formatQuantity(fromScale(cut, unit), unit, 2));
  const [first] = cuts;
  const values =
    first === undefined
      ? ["a steady value"]
      : [
          `below ${first}`,
          ...cuts.slice(1).map((cut, index) => `${cuts[index] ?? ""} to ${cut}`),
          `${cuts.at(-1) ?? ""} and more`,
        ];
  const special = [...(classes.hasOverRange ? ["over range"] : []), ...(classes.hasUnsteady ? ["unsteady"] : [])];
  return [...values, ...special];
}
