import { allCases, isSettled, splitCases, weightOf, type Cases, type PlanProblem } from "ohmward/diagnosis";

/** The best plan there is, as far as its first step. */
interface ExactPlan {
  /** Least expected minutes. */
  readonly minutes: number;
  /** The test to begin with; undefined if nothing is left to tell apart. */
  readonly test: number | undefined;
}

/**
 * The plan with the least expected time, by dynamic programming over sets of cases and set-ups. Its time grows beyond use at some 15
 * cases: it is the measure that the chooser is held against, and the plan of a small rest.
 *
 * @param problem The problem.
 * @param cases Cases that are still possible; all where absent.
 * @param setup Where the work stands; the start of the problem where absent.
 *
 * Source: the method is standard for test sequencing, see K. Pattipati and M. Alexandridis, Application of heuristic search and
 * information theory to sequential fault diagnosis, IEEE Transactions on Systems, Man and Cybernetics 20 (1990) 872-887.
 */
export function exactPlan(problem: PlanProblem, cases = allCases(problem), setup = problem.setup): ExactPlan {
  const known = new Map<string, ExactPlan>();
  const solve = (rest: Cases, at: number): ExactPlan => {
    if (isSettled(problem, rest)) return { minutes: 0, test: undefined };
    const key = `${at} ${rest.join(",")}`;
    const before = known.get(key);
    if (before) return before;
    const plan = bestStep(problem, rest, { setup: at, solve });
    known.set(key, plan);
    return plan;
  };
  return solve(cases, setup);
}

interface Step {
  readonly setup: number;
  readonly solve: (cases: Cases, setup: number) => ExactPlan;
}

function bestStep(problem: PlanProblem, cases: Cases, { setup, solve }: Step): ExactPlan {
  const total = weightOf(problem, cases);
  let best: ExactPlan | undefined;
  problem.tests.forEach((test, position) => {
    const parts = splitCases(cases, test).filter((part) => part.length > 0);
    if (parts.length < 2) return;
    const { minutes, next } = problem.setups.change(setup, test.need);
    let sum = minutes + test.minutes;
    for (const part of parts) {
      if (best && sum >= best.minutes) return;
      sum += (weightOf(problem, part) / total) * solve(part, next).minutes;
    }
    if (!best || sum < best.minutes) best = { minutes: sum, test: position };
  });
  return best ?? { minutes: 0, test: undefined };
}
