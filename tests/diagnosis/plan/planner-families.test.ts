import { seededRandom, type SeededRandom } from "ohmward/base";
import { describe, expect, test } from "vitest";
import { exactPlan } from "../support/exact-plan.ts";
import { makePlanProblem, modeSetup, type OutcomeTable } from "../support/make-plan-problem.ts";
import { policyMinutes } from "../support/policy-minutes.ts";

interface Family {
  readonly name: string;
  readonly outcomes: readonly [number, number];
  readonly isSkewed: boolean;
  readonly costs: readonly [number, number];
  /** Minutes of a change between two modes; 0 for none. */
  readonly modeMinutes: number;
}

/** The families of random problems on which the planner is held against the exact optimum; the last one has set-up costs along the way. */
const families: readonly Family[] = [
  {
    name: "two outcomes, equal costs, equal weights",
    outcomes: [2, 2],
    isSkewed: false,
    costs: [1, 1],
    modeMinutes: 0,
  },
  {
    name: "two outcomes, equal costs, skewed weights",
    outcomes: [2, 2],
    isSkewed: true,
    costs: [1, 1],
    modeMinutes: 0,
  },
  {
    name: "two outcomes, costs 1 to 10, skewed weights",
    outcomes: [2, 2],
    isSkewed: true,
    costs: [1, 10],
    modeMinutes: 0,
  },
  {
    name: "2 to 4 outcomes, costs 1 to 10, skewed weights",
    outcomes: [2, 4],
    isSkewed: true,
    costs: [1, 10],
    modeMinutes: 0,
  },
  { name: "2 to 4 outcomes, costs 1 to 10, modes", outcomes: [2, 4], isSkewed: true, costs: [1, 10], modeMinutes: 6 },
];

const plainFails: Family = {
  name: "2 to 4 outcomes",
  outcomes: [2, 4],
  isSkewed: true,
  costs: [1, 10],
  modeMinutes: 6,
};

const INSTANCES = 150;

describe("policyMinutes() against exactPlan()", () => {
  test.each(families)("$name: mean at most 1.01 of the optimum, none above 1.25", (family) => {
    const random = seededRandom(7);
    const ratios = Array.from({ length: INSTANCES }, () => {
      const problem = makePlanProblem(drawTable(family, random));
      return policyMinutes(problem) / exactPlan(problem).minutes;
    });
    expect(Math.min(...ratios)).toBeGreaterThan(1 - 1e-9);
    expect(ratios.reduce((sum, ratio) => sum + ratio, 0) / ratios.length).toBeLessThanOrEqual(1.01);
    expect(Math.max(...ratios)).toBeLessThanOrEqual(1.25);
  });

  test("the plain rule is worse on the same problems, so that the comparison can fail", () => {
    const random = seededRandom(7);
    const family = plainFails;
    const ratios = Array.from({ length: INSTANCES }, () => {
      const problem = makePlanProblem(drawTable(family, random));
      return policyMinutes(problem, { candidates: 1 }) / exactPlan(problem).minutes;
    });
    expect(ratios.reduce((sum, ratio) => sum + ratio, 0) / ratios.length).toBeGreaterThan(1.01);
  });
});

/** A table in which every two hypotheses are told apart by some test. */
function drawTable(family: Family, random: SeededRandom): OutcomeTable {
  for (;;) {
    const count = random.integer(8, 12);
    const tests = random.integer(10, 17);
    const kinds = Array.from({ length: tests }, () => random.integer(...family.outcomes));
    const rows = Array.from({ length: count }, () => kinds.map((outcomes) => random.integer(0, outcomes - 1)));
    if (new Set(rows.map((row) => row.join(""))).size < count) continue;
    const weights = Array.from({ length: count }, () => (family.isSkewed ? -Math.log(1 - random.next()) : 1));
    const minutes = kinds.map(() => random.integer(...family.costs));
    const needs = kinds.map(() => (family.modeMinutes > 0 ? random.integer(0, 1) : -1));
    return { weights, rows, minutes, needs, setups: modeSetup(family.modeMinutes) };
  }
}
