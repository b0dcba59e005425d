import { allCases, splitCases } from "ohmward/diagnosis";
import { describe, expect, test } from "vitest";
import { exactPlan } from "../support/exact-plan.ts";
import { huffmanCost } from "../support/huffman-cost.ts";
import { makePlanProblem } from "../support/make-plan-problem.ts";
import { policyMinutes } from "../support/policy-minutes.ts";

/**
 * Twelve coins, one of them heavier or lighter, a balance with three outcomes. Source: puzzle pages (read); that three weighings are
 * also the least expected number was calculated over all states apart from this code.
 */
const COINS = 12;
/** Hypothesis 2c: coin c is heavy; 2c + 1: coin c is light. */
const HYPOTHESES = 2 * COINS;

describe("twelve coins", () => {
  const weighings = [...allWeighings()];
  const rows = Array.from({ length: HYPOTHESES }, (_, hypothesis) => weighings.map((sides) => tilt(sides, hypothesis)));
  const problem = makePlanProblem({ weights: rows.map(() => 1), rows });

  test("the planner needs three weighings on average, no more than the puzzle", () => {
    expect(policyMinutes(problem, { candidates: 2, mostInside: 40 })).toBeCloseTo(3, 12);
  });

  test("no plan can do better than the bound, and none settles a third of the coins in one weighing", () => {
    expect(
      huffmanCost(
        rows.map(() => 1),
        3,
      ),
    ).toBeCloseTo(2.9583, 4);
    const [first] = problem.tests.filter((_, index) => weighings[index]?.filter((side) => side === 1).length === 4);
    const parts = first ? splitCases(allCases(problem), first) : [];
    expect(parts.map((part) => part.length)).toEqual([8, 8, 8]);
    expect(exactPlan(problem, parts[0]?.slice(0, 3), 0).minutes).toBe(1);
  });

  /** Side of each coin: 0 off, 1 left, 2 right; three or four on each side, most mirror images left out. */
  function* allWeighings(sides: readonly number[] = []): Iterable<readonly number[]> {
    const left = sides.filter((side) => side === 1).length;
    const right = sides.filter((side) => side === 2).length;
    if (left > 4 || right > left) return;
    if (sides.length < COINS) for (const side of [1, 2, 0]) yield* allWeighings([...sides, side]);
    else if (left === right && left > 2) yield sides;
  }

  function tilt(sides: readonly number[], hypothesis: number): number {
    const side = sides[hypothesis >> 1] ?? 0;
    if (side === 0) return 0;
    return (side === 1) === (hypothesis % 2 === 0) ? 1 : 2;
  }
});
