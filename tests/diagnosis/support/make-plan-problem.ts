import { type PlanProblem, type SetupModel } from "ohmward/diagnosis";

/** A table of outcomes as people write it: a row a hypothesis, a column a test. */
export interface OutcomeTable {
  /** Prior weight of each hypothesis. */
  readonly weights: readonly number[];
  /** Outcome class of each hypothesis (row) in each test (column), from 0. */
  readonly rows: readonly (readonly number[])[];
  /** Minutes of each test; 1 each where absent. */
  readonly minutes?: readonly number[];
  /** What each test needs of the set-up; nothing where absent. */
  readonly needs?: readonly number[];
  readonly setups?: SetupModel;
  readonly setup?: number;
  /** Group of each hypothesis, rising; each its own where absent. */
  readonly groups?: readonly number[];
  readonly stopShare?: number;
}

/**
 * Makes a planning problem from a table of outcomes.
 *
 * @param table Weights, one row of outcome classes a hypothesis, costs.
 * @throws RangeError if the rows differ in length or are not as many as the weights.
 */
export function makePlanProblem(table: OutcomeTable): PlanProblem {
  const { weights, rows } = table;
  const testCount = rows[0]?.length ?? 0;
  if (rows.length !== weights.length || rows.some((row) => row.length !== testCount)) {
    throw new RangeError("Cannot plan: every hypothesis needs a weight and an outcome in every test");
  }
  const tests = Array.from({ length: testCount }, (_, test) => {
    const outcomes = Uint8Array.from(rows, (row) => row[test] ?? 0);
    return {
      outcomes,
      outcomeCount: Math.max(0, ...outcomes) + 1,
      minutes: table.minutes?.[test] ?? 1,
      need: table.needs?.[test] ?? -1,
    };
  });
  return {
    weights: Float64Array.from(weights),
    groups: Int32Array.from(table.groups ?? weights.map((_, index) => index)),
    tests,
    setups: table.setups ?? noSetup,
    setup: table.setup ?? 0,
    stopShare: table.stopShare ?? 1,
  };
}

/** A set-up model in which nothing has to be got ready. */
const noSetup: SetupModel = { change: (setup) => ({ minutes: 0, next: setup }) };

/**
 * A set-up model with modes, such as states of a machine: changing the mode takes a fixed time, staying in it none. A need is the
 * number of the mode, or -1 where the mode does not matter.
 *
 * @param changeMinutes Minutes for each change of mode.
 */
export function modeSetup(changeMinutes: number): SetupModel {
  return {
    change: (setup, need) =>
      need < 0 || need === setup ? { minutes: 0, next: setup } : { minutes: changeMinutes, next: need },
  };
}
