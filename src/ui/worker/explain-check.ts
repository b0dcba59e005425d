import { formatQuantity } from "../../base/index.ts";
import {
  allCases,
  fromScale,
  isMeterCheck,
  outcomesOf,
  planNext,
  splitCases,
  weightOf,
  type Check,
  type ExpectedOutcome,
  type JobState,
  type OutcomeClasses,
} from "../../diagnosis/index.ts";

/** Outcomes below this share are left out, as with a proposed check. */
const LEAST_SHARE = 0.005;

/**
 * Says what each outcome of a check that was not proposed would leave.
 *
 * @param state The job.
 * @param check Any permitted check.
 * @returns The outcomes, most likely first; empty if the check was done already or tells nothing.
 */
export function explainCheck(state: JobState, check: Check): readonly ExpectedOutcome[] {
  const { plan } = planNext(state);
  const { problem } = plan;
  const number = plan.checks.findIndex(({ key }) => key === check.key);
  const test = problem.tests[number];
  const cases = allCases(problem);
  const total = weightOf(problem, cases);
  if (!test || total <= 0) return [];
  const labels = labelsOf(check, plan.classes[number]);
  return splitCases(cases, test)
    .map((part, outcome): ExpectedOutcome => {
      const weight = weightOf(problem, part);
      const shares = new Map<number, number>();
      for (const index of part) {
        const group = problem.groups[index] ?? -1;
        shares.set(group, (shares.get(group) ?? 0) + (problem.weights[index] ?? 0) / weight);
      }
      const leaves = [...shares].map(([group, share]) => ({ group, label: state.workup.groups[group] ?? "", share }));
      leaves.sort((a, b) => b.share - a.share);
      return { label: labels[outcome] ?? "", share: weight / total, leaves: leaves.slice(0, 5) };
    })
    .filter(({ share }) => share >= LEAST_SHARE)
    .sort((a, b) => b.share - a.share);
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
