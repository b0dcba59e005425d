import {
  allCases,
  chooseTest,
  splitCases,
  weightOf,
  type Cases,
  type ChooseOptions,
  type PlanProblem,
} from "ohmward/diagnosis";

/**
 * Expected minutes of the planner when it chooses anew after every outcome, over all cases by weight.
 *
 * @param problem The problem.
 * @param options How far each choice looks; `candidates: 1` is the plain rule.
 * @returns Minutes until the cases are settled or no test tells anything more.
 */
export function policyMinutes(problem: PlanProblem, options: ChooseOptions = {}): number {
  const follow = (cases: Cases, setup: number): number => {
    const chosen = chooseTest(problem, cases, setup, options);
    const test = problem.tests[chosen?.test ?? -1];
    if (!chosen || !test) return 0;
    const total = weightOf(problem, cases);
    let minutes = chosen.minutes;
    for (const part of splitCases(cases, test)) {
      if (part.length > 0) minutes += (weightOf(problem, part) / total) * follow(part, chosen.next);
    }
    return minutes;
  };
  return follow(allCases(problem), problem.setup);
}
