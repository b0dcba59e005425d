import { allCases, chooseTest, rankTests, type PlanProblem } from "ohmward/diagnosis";
import { describe, expect, test } from "vitest";
import { makePlanProblem } from "../support/make-plan-problem.ts";

/** Five equal faults. The first test parts one from four in 1 minute; four others each single out one of the four in 4 minutes. */
const five = makePlanProblem({
  weights: [1, 1, 1, 1, 1],
  rows: [
    [0, 0, 0, 0, 0],
    [1, 1, 0, 0, 0],
    [1, 0, 1, 0, 0],
    [1, 0, 0, 1, 0],
    [1, 0, 0, 0, 1],
  ],
  minutes: [1, 4, 4, 4, 4],
});

const afterwards = (minutes: number): PlanProblem => ({
  ...five,
  leafMinutes: (cases) => (cases.length > 1 ? minutes : 0),
});

/** Numbers worked out by hand. Four left: one of four in 4 minutes, then one of three, then one of two: 4 + 3/4 (4 + 2/3 * 4) = 9. */
describe("chooseTest() with something to do after testing", () => {
  test.each([
    ["8 minutes: stopping with four left is quicker than the 9 minutes of telling them apart", 8, 1 + 0.8 * 8],
    ["20 minutes: they are told apart", 20, 1 + 0.8 * 9],
  ])("%s", (_, minutes, expected) => {
    const problem = afterwards(minutes);
    const chosen = chooseTest(problem, allCases(problem), 0);
    expect(chosen?.test).toBe(0);
    expect(chosen?.expectedMinutes).toBeCloseTo(expected, 12);
  });

  test("takes a ranking that is known already and chooses the same", () => {
    const problem = afterwards(20);
    const cases = allCases(problem);
    const ranked = rankTests(problem, cases, { setup: 0, tests: [...problem.tests.keys()] });
    expect(chooseTest(problem, cases, 0, { ranked })).toEqual(chooseTest(problem, cases, 0));
  });
});
