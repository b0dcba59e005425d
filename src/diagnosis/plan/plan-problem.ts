/** What it takes to get ready for a test, and what is ready afterwards. Set-ups and needs are numbers with a meaning to the maker only. */
export interface SetupModel {
  /**
   * The step from one set-up to what a test needs.
   *
   * @param setup Where the work stands: machine state, what is open, which adapters are fitted.
   * @returns Minutes for getting ready, at least 0, and the set-up that the work then stands in.
   */
  readonly change: (setup: number, need: number) => { readonly minutes: number; readonly next: number };
}

/** One test of a plan, with an outcome class for every case. */
export interface PlanTest {
  /** Outcome class per case, from 0. */
  readonly outcomes: Uint8Array;
  readonly outcomeCount: number;
  /** Time for the test itself once the set-up is ready, in minutes. */
  readonly minutes: number;
  /** What it needs, for the set-up model. */
  readonly need: number;
}

/**
 * Which test next: the problem without any wiring. A case is one hypothesis, or one of several draws of a hypothesis whose readings spread.
 * Cases of one group need no telling apart, because one repair mends them.
 */
export interface PlanProblem {
  /** Weight of each case, at least 0. They need not add up to 1. */
  readonly weights: Float64Array;
  /** Group of each case. Cases of one group stand next to each other. */
  readonly groups: Int32Array;
  readonly tests: readonly PlanTest[];
  readonly setups: SetupModel;
  /** The set-up that the work starts in. */
  readonly setup: number;
  /** Testing ends when one group holds this share of the weight; 1 asks for certainty. */
  readonly stopShare: number;
  /**
   * Expected minutes of what comes after testing, when it ends with these cases still possible: repairs tried in order. Testing then goes
   * on only as long as it saves more than it costs. Nothing where absent.
   */
  readonly leafMinutes?: (cases: Int32Array) => number;
}

/** Cases that are still possible, by number, in rising order. */
export type Cases = Int32Array;

/** Every case with a weight above 0. */
export function allCases(problem: PlanProblem): Cases {
  return Int32Array.from([...problem.weights.keys()].filter((index) => (problem.weights[index] ?? 0) > 0));
}

/** The weight that cases hold together. */
export function weightOf(problem: PlanProblem, cases: Cases): number {
  let sum = 0;
  for (const index of cases) sum += problem.weights[index] ?? 0;
  return sum;
}

/**
 * Splits cases by the outcome that a test would have.
 *
 * @returns One list a class, in order of the classes; empty where no case gives the class.
 */
export function splitCases(cases: Cases, test: PlanTest): readonly Cases[] {
  const counts = new Int32Array(test.outcomeCount);
  for (const index of cases) {
    const outcome = test.outcomes[index] ?? 0;
    counts[outcome] = (counts[outcome] ?? 0) + 1;
  }
  const parts = Array.from(counts, (count) => new Int32Array(count));
  const filled = new Int32Array(test.outcomeCount);
  for (const index of cases) {
    const outcome = test.outcomes[index] ?? 0;
    const part = parts[outcome];
    const at = filled[outcome] ?? 0;
    if (part) part[at] = index;
    filled[outcome] = at + 1;
  }
  return parts;
}

/** Whether the cases need no more telling apart: one group holds the share of the weight that the problem asks for. */
export function isSettled(problem: PlanProblem, cases: Cases): boolean {
  const { weights, groups, stopShare } = problem;
  let total = 0;
  let best = 0;
  let current = 0;
  let group = -1;
  for (const index of cases) {
    const weight = weights[index] ?? 0;
    if (groups[index] !== group) {
      group = groups[index] ?? -1;
      current = 0;
    }
    current += weight;
    total += weight;
    if (current > best) best = current;
  }
  return best >= stopShare * total * (1 - 1e-12);
}
