import { describe, expect, test } from "vitest";
import { allCases, chooseTest, entropyBits, minutesOfOrder, repairOrder } from "ohmward/diagnosis";
import { alphabeticPlan } from "../support/alphabetic-plan.ts";
import { exactPlan } from "../support/exact-plan.ts";
import { huffmanCost } from "../support/huffman-cost.ts";
import { makePlanProblem, modeSetup, type OutcomeTable } from "../support/make-plan-problem.ts";
import { policyMinutes } from "../support/policy-minutes.ts";

/**
 * Six states and five tests of unit cost. Source: K. Pattipati and M. Alexandridis, IEEE Transactions on Systems, Man and Cybernetics
 * 20 (1990) 872-887. Status: abstract read, matrix and the optimum 2.18 from memory; the optimum was recalculated exactly from the
 * matrix and agrees, so the matrix is very likely the published one.
 */
const sixStates: OutcomeTable = {
  weights: [0.7, 0.01, 0.02, 0.1, 0.05, 0.12],
  rows: ["00000", "01001", "00110", "10011", "11000", "11110"].map((row) => [...row].map(Number)),
};

describe("the example of six states and five tests", () => {
  const problem = makePlanProblem(sixStates);

  test("exactPlan() finds the published optimum and begins with the second test", () => {
    const plan = exactPlan(problem);
    expect(plan.minutes).toBeCloseTo(2.18, 12);
    expect(plan.test).toBe(1);
  });

  test("chooseTest() reaches the optimum where the plain rule takes 31 % longer", () => {
    expect(policyMinutes(problem)).toBeCloseTo(2.18, 12);
    expect(policyMinutes(problem, { candidates: 5 })).toBeCloseTo(2.18, 12);
    expect(policyMinutes(problem, { candidates: 1 })).toBeCloseTo(2.86, 12);
    expect(chooseTest(problem, allCases(problem), 0)?.expectedMinutes).toBeCloseTo(2.18, 12);
  });

  test("its bounds are as calculated", () => {
    expect(huffmanCost(sixStates.weights)).toBeCloseTo(1.59, 12);
    expect(entropyBits(sixStates.weights)).toBeCloseTo(1.4549, 4);
  });

  // The problem class is multi-mode test sequencing: S. Ruan, F. Tu, K. Pattipati, A. Patterson-Hine, IEEE Transactions on Systems, Man
  // and Cybernetics B 34 (2004) 1490-1499 (abstract read). The numbers are our own, calculated by an exhaustive search apart from this code.
  test.each([
    [0.5, 2.68, 3.33],
    [1, 3.18, 3.78],
    [2, 4.18, 4.67],
    [5, 7.18, 7.34],
  ])("with a change of mode at %s minutes the planner takes %s and the plain rule %s", (change, best, plain) => {
    const modes = makePlanProblem({ ...sixStates, needs: [0, 0, 1, 1, 1], setups: modeSetup(change) });
    expect(exactPlan(modes).minutes).toBeCloseTo(best, 12);
    expect(policyMinutes(modes)).toBeCloseTo(best, 12);
    expect(policyMinutes(modes, { candidates: 1 })).toBeCloseTo(plain, 12);
  });
});

describe("huffmanCost()", () => {
  // First: textbook example, from memory. Others: (1..6)/21 of a course exercise (ELEN E6717, homework 4, text read), answers recalculated.
  test.each([
    [[0.4, 0.2, 0.2, 0.1, 0.1], 2, 2.2],
    [[1, 2, 3, 4, 5, 6], 2, 51 / 21],
    [[1, 2, 3, 4, 5, 6], 3, 34 / 21],
    [Array.from({ length: 24 }, () => 1), 3, 2.9583333333],
    [Array.from({ length: 25 }, () => 1), 3, 2.96],
  ])("of %j with %i outcomes is %d", (weights, arity, cost) => {
    expect(huffmanCost(weights, arity)).toBeCloseTo(cost, 9);
  });

  test("entropy is the bound below it", () => {
    expect(entropyBits([0.4, 0.2, 0.2, 0.1, 0.1])).toBeCloseTo(2.1219, 4);
    expect(entropyBits(Array.from({ length: 24 }, () => 1)) / Math.log2(3)).toBeCloseTo(2.8928, 4);
  });
});

describe("alphabeticPlan()", () => {
  // Source of the problem: R. Hassin, A. Sarid, European Journal of Operational Research (2018), a look tells whether the fault lies beyond
  // it (read). Numbers calculated with exact fractions apart from this code.
  test.each([
    [4, 2],
    [5, 12 / 5],
    [8, 3],
    [12, 11 / 3],
  ])("needs %d equal items to take %d looks", (count, looks) => {
    expect(alphabeticPlan(Array.from({ length: count }, () => 1)).looks).toBeCloseTo(looks, 12);
  });

  test("beats splitting by count where weights differ", () => {
    const weights = [0.05, 0.4, 0.05, 0.1, 0.2, 0.05, 0.15];
    expect(alphabeticPlan(weights).looks).toBeCloseTo(2.7, 12);
    expect(huffmanCost(weights)).toBeCloseTo(2.45, 12);
    expect(byCount(weights)).toBeCloseTo(2.95, 12);
  });

  test("agrees with the planner and the optimum on a chain of probes", () => {
    const weights = [0.05, 0.4, 0.05, 0.1, 0.2, 0.05, 0.15];
    const rows = weights.map((_, item) => weights.slice(1).map((_, probe) => (item > probe ? 1 : 0)));
    const chain = makePlanProblem({ weights, rows });
    expect(exactPlan(chain).minutes).toBeCloseTo(2.7, 12);
    expect(policyMinutes(chain)).toBeCloseTo(2.7, 12);
  });

  function byCount(weights: readonly number[]): number {
    if (weights.length < 2) return 0;
    const cut = Math.floor(weights.length / 2);
    const all = weights.reduce((sum, weight) => sum + weight, 0);
    return all + byCount(weights.slice(0, cut)) + byCount(weights.slice(cut));
  }
});

describe("repairOrder()", () => {
  // Source: D. Heckerman, J. Breese, K. Rommelse, Communications of the ACM 38 (1995): rule p/c from memory, example calculated over all orders.
  const repairs = [
    { weight: 0.4, minutes: 8 },
    { weight: 0.3, minutes: 3 },
    { weight: 0.2, minutes: 1 },
    { weight: 0.1, minutes: 4 },
  ];

  test("is the best of all 24 orders", () => {
    const all = orders([0, 1, 2, 3]).map((order) => minutesOfOrder(repairs, order));
    const best = repairOrder(repairs);
    expect(best.order).toEqual([2, 1, 0, 3]);
    expect(best.minutes).toBeCloseTo(7.8, 12);
    expect(Math.min(...all)).toBeCloseTo(7.8, 12);
    expect(Math.max(...all)).toBeCloseTo(12.9, 12);
  });

  // Source: exercise after Bellman and Ross (read): with two causes the first comes first exactly when (1 - p) C1 <= p C2.
  test.each([
    [0.3, 3, 8],
    [0.3, 4, 8],
    [0.6, 5, 3],
    [0.6, 4, 3],
  ])("with p = %d, costs %d and %d follows the rule for two causes", (p, first, second) => {
    const two = [
      { weight: p, minutes: first },
      { weight: 1 - p, minutes: second },
    ];
    expect(repairOrder(two).order[0]).toBe((1 - p) * first <= p * second ? 0 : 1);
  });

  function orders(items: readonly number[]): readonly (readonly number[])[] {
    if (items.length === 0) return [[]];
    return items.flatMap((item) => orders(items.filter((each) => each !== item)).map((rest) => [item, ...rest]));
  }
});
