import { isSettled, splitCases, weightOf, type Cases, type PlanProblem, type PlanTest } from "./plan-problem.ts";

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
 * Chooses the next test by rollout: the best few tests by information per minute are each followed to the end with that plain rule, and the
 * one with the least expected total time is taken.
 *
 * @param options How far to look.
 * @returns The test; undefined if the cases are settled or no test tells anything.
 *
 * Source: the use of rollout on the information heuristic for test sequencing follows F. Tu and K. Pattipati, Rollout strategies for
 * sequential fault diagnosis, IEEE Transactions on Systems, Man and Cybernetics A 33 (2003).
 *
 * @example
 * ```ts
 * import { allCases, chooseTest } from "ohmward/diagnosis";
 * const tests = [5, 1].map((minutes) => ({ minutes, outcomes: Uint8Array.of(0, 1), outcomeCount: 2, need: -1 }));
 * const setups = { change: (setup: number) => ({ minutes: 0, next: setup }) };
 * const cases = { weights: Float64Array.of(3, 1), groups: Int32Array.of(0, 1) };
 * const problem = { ...cases, tests, setups, setup: 0, stopShare: 1 };
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

/** A test with what it would cost and tell now. */
export interface RankedTest {
  /** Position in the tests of the problem. */
  readonly test: number;
  /** Minutes for getting ready and testing. */
  readonly minutes: number;
  /** Minutes for the test alone. */
  readonly ownMinutes: number;
  readonly bits: number;
  readonly bitsPerMinute: number;
  /** The set-up after the test. */
  readonly next: number;
}

/** A test that is all but free would otherwise beat every other by an endless ratio. */
const LEAST_MINUTES = 0.01;

/**
 * Ranks tests by expected information per minute, the time for getting ready included.
 *
 * @param from Where the work stands, and the positions of the tests to look at.
 * @returns The tests that tell something, best first; ties in the order given.
 */
export function rankTests(
  problem: PlanProblem,
  cases: Cases,
  from: { readonly setup: number; readonly tests: readonly number[] },
): readonly RankedTest[] {
  const { setup, tests } = from;
  const ranked: RankedTest[] = [];
  for (const test of tests) {
    const plan = problem.tests[test];
    if (!plan) continue;
    const bits = informationBits(problem, cases, plan);
    if (bits <= 0) continue;
    const { minutes, next } = problem.setups.change(setup, plan.need);
    const all = minutes + plan.minutes;
    ranked.push({
      test,
      minutes: all,
      ownMinutes: plan.minutes,
      bits,
      bitsPerMinute: bits / Math.max(all, LEAST_MINUTES),
      next,
    });
  }
  return ranked.sort((a, b) => b.bitsPerMinute - a.bitsPerMinute);
}

/**
 * Entropy of weights, in bits.
 *
 * @param weights At least 0; they need not add up to 1.
 * @example
 * ```ts
 * import { entropyBits } from "ohmward/diagnosis";
 * expect(entropyBits([0.4, 0.2, 0.2, 0.1, 0.1])).toBeCloseTo(2.1219, 4);
 * ```
 */
export function entropyBits(weights: readonly number[]): number {
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  if (total <= 0) return 0;
  return Math.log2(total) - weights.reduce((sum, weight) => sum + timesLog(weight), 0) / total;
}

/**
 * What a test is expected to tell about the group of the true case: the mutual information of outcome and group.
 *
 * @param cases Cases that are still possible, cases of a group next to each other.
 * @returns Bits, at least 0.
 */
function informationBits(problem: PlanProblem, cases: Cases, test: PlanTest): number {
  const { weights, groups } = problem;
  const { outcomes, outcomeCount } = test;
  const ofClass = new Float64Array(outcomeCount);
  let total = 0;
  let apart = 0;
  let end = 0;
  while (end < cases.length) {
    const start = end;
    const group = groups[cases[start] ?? 0];
    const first = outcomes[cases[start] ?? 0] ?? 0;
    let inGroup = 0;
    let isOneClass = true;
    for (; end < cases.length && groups[cases[end] ?? 0] === group; end++) {
      const index = cases[end] ?? 0;
      const outcome = outcomes[index] ?? 0;
      const weight = weights[index] ?? 0;
      ofClass[outcome] = (ofClass[outcome] ?? 0) + weight;
      inGroup += weight;
      if (outcome !== first) isOneClass = false;
    }
    total += inGroup;
    // A group with one outcome adds the same to the joint entropy as to its own.
    if (!isOneClass) apart += splitTerm(problem, test, cases.subarray(start, end)) - timesLog(inGroup);
  }
  if (total <= 0) return 0;
  const classTerm = ofClass.reduce((sum, weight) => sum + timesLog(weight), 0);
  const bits = (apart - classTerm + timesLog(total)) / total;
  // Rounding leaves some 1e-16 where there is nothing to learn.
  return bits < 1e-12 ? 0 : bits;
}

/** Sum over the outcomes of weight times its logarithm, within one group. */
function splitTerm({ weights }: PlanProblem, { outcomes, outcomeCount }: PlanTest, cases: Cases): number {
  const ofClass = new Float64Array(outcomeCount);
  for (const index of cases) {
    const outcome = outcomes[index] ?? 0;
    ofClass[outcome] = (ofClass[outcome] ?? 0) + (weights[index] ?? 0);
  }
  return ofClass.reduce((sum, weight) => sum + timesLog(weight), 0);
}

function timesLog(weight: number): number {
  return weight > 0 ? weight * Math.log2(weight) : 0;
}
