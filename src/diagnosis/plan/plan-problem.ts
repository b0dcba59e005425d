/** What it takes to get ready for a test, and what is ready afterwards. Set-ups and needs are numbers with a meaning to the maker only. */
export interface SetupModel {
  /**
   * The step from one set-up to what a test needs.
   *
   * @param setup Where the work stands: machine state, what is open, which adapters are fitted.
   * @param need What the test asks for.
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

/** A set-up model in which nothing has to be got ready. */
export const noSetup: SetupModel = { change: (setup) => ({ minutes: 0, next: setup }) };

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
