import { isSettled, splitCases, weightOf, type Cases } from "./cases.ts";
import { rankTests, type RankedTest } from "./rank-tests.ts";
import type { PlanProblem } from "./plan-problem.ts";

/** How far the choice looks. */
export interface ChooseOptions {
  /** How many of the best tests by information per minute are tried out to the end; 1 is the plain rule. */
  readonly candidates?: number;
  /** Positions of the tests that may be used; all where absent. */
  readonly tests?: readonly number[];
  /** What {@link rankTests} gave for these cases and this set-up, where it is known already. */
  readonly ranked?: readonly RankedTest[];
  /** At most so many tests, the most telling ones, are used while trying out. */
  readonly mostInside?: number;
  /** By how much, as a share, the expected time must be less before a test other than the first by the plain rule is taken. */
  readonly leastGain?: number;
}

/** A chosen test with the expected time until the fault is settled, itself included. */
export interface ChosenTest extends RankedTest {
  readonly expectedMinutes: number;
}

/** Eight candidates lost nothing to a full second look in the trials that the default comes from. */
const CANDIDATES = 8;

/**
 * Chooses the next test by rollout: the best few tests by information per minute are each followed to the end with that plain rule,
 * and the one with the least expected total time is taken.
 *
 * @param problem The problem.
 * @param cases Cases that are still possible.
 * @param setup Where the work stands.
 * @param options How far to look.
 * @returns The test; undefined if the cases are settled or no test tells anything.
 *
 * Source: the use of rollout on the information heuristic for test sequencing follows F. Tu and K. Pattipati, Rollout strategies for
 * sequential fault diagnosis, IEEE Transactions on Systems, Man and Cybernetics A 33 (2003).
 * @example
 * ```ts
 * import { allCases, chooseTest, makePlanProblem } from "ohmward/diagnosis";
 * const problem = makePlanProblem({ weights: [3, 1], rows: [[0, 0], [1, 1]], minutes: [5, 1] });
 * expect(chooseTest(problem, allCases(problem), 0)?.test).toBe(1);
 * ```
 */
export function chooseTest(
  problem: PlanProblem,
  cases: Cases,
  setup: number,
  options: ChooseOptions = {},
): ChosenTest | undefined {
  if (isSettled(problem, cases)) return undefined;
  const ranked =
    options.ranked ?? rankTests(problem, cases, { setup, tests: options.tests ?? [...problem.tests.keys()] });
  const inside = ranked.slice(0, options.mostInside ?? ranked.length).map(({ test }) => test);
  let best: ChosenTest | undefined;
  for (const candidate of ranked.slice(0, options.candidates ?? CANDIDATES)) {
    const limit = best?.expectedMinutes ?? Infinity;
    const expectedMinutes = minutesAfter(problem, cases, candidate, { tests: inside, limit });
    const least = best && best.expectedMinutes * (1 - (options.leastGain ?? 0)) - 1e-12;
    if (least === undefined || expectedMinutes < least) best = { ...candidate, expectedMinutes };
  }
  return best;
}

/** The plain rules that a candidate is followed up with; the better of them counts. */
const RULES: readonly ((ranked: RankedTest) => number)[] = [
  // Information per minute, the time for getting ready included.
  (ranked) => ranked.bitsPerMinute,
  // The same without the time for getting ready: a change that has to come anyway should not be put off by cheap detours.
  (ranked) => ranked.bits / Math.max(ranked.ownMinutes, 0.01),
];

interface Follow {
  readonly tests: readonly number[];
  readonly rule: (ranked: RankedTest) => number;
}

/** Expected minutes of a test and of the better plain rule in each of its outcomes; Infinity as soon as it is known to pass the limit. */
function minutesAfter(
  problem: PlanProblem,
  cases: Cases,
  ranked: RankedTest,
  { tests, limit }: { readonly tests: readonly number[]; readonly limit: number },
): number {
  const test = problem.tests[ranked.test];
  if (!test) return Infinity;
  const total = weightOf(problem, cases);
  let minutes = ranked.minutes;
  for (const part of splitCases(cases, test)) {
    if (part.length === 0) continue;
    const rest = RULES.map((rule) => ruleMinutes(problem, part, ranked.next, { tests, rule }));
    minutes += (weightOf(problem, part) / total) * Math.min(...rest);
    if (minutes > limit) return Infinity;
  }
  return minutes;
}

/**
 * Expected minutes of always taking the best test by a plain rule, until the cases are settled, nothing tells, or what comes after testing
 * takes less than going on.
 */
function ruleMinutes(problem: PlanProblem, cases: Cases, setup: number, { tests, rule }: Follow): number {
  const leaf = problem.leafMinutes?.(cases) ?? 0;
  if (isSettled(problem, cases)) return leaf;
  // What does not part the cases now parts no smaller set of them.
  const parting = tests.filter((position) => parts(problem, cases, position));
  let best: RankedTest | undefined;
  for (const ranked of rankTests(problem, cases, { setup, tests: parting })) {
    if (!best || rule(ranked) > rule(best)) best = ranked;
  }
  const test = problem.tests[best?.test ?? -1];
  if (!best || !test) return leaf;
  // Where trying repairs takes less than the next test alone, no rule would go on.
  if (problem.leafMinutes && leaf <= best.minutes) return leaf;
  const total = weightOf(problem, cases);
  let minutes = best.minutes;
  for (const part of splitCases(cases, test)) {
    if (part.length === 0) continue;
    minutes += (weightOf(problem, part) / total) * ruleMinutes(problem, part, best.next, { tests: parting, rule });
  }
  return problem.leafMinutes ? Math.min(minutes, leaf) : minutes;
}

function parts(problem: PlanProblem, cases: Cases, position: number): boolean {
  const outcomes = problem.tests[position]?.outcomes;
  const first = outcomes?.[cases[0] ?? 0];
  for (const index of cases) if (outcomes?.[index] !== first) return true;
  return false;
}
