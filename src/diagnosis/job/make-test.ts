import { classOf, cutClasses, type OutcomeClasses } from "../belief/cut-classes.ts";
import { UNKNOWN } from "../belief/reading-likelihood.ts";
import { isSpecial } from "../belief/special-marks.ts";
import type { Hypothesis } from "../candidates/hypothesis.ts";
import { isMeterCheck, type Check, type HandCheck } from "../checks/check.ts";
import { faultyShare } from "../checks/hand-outcomes.ts";
import type { PlanTest } from "../plan/plan-problem.ts";
import { foreseen, type Foreseen } from "../predict/scale-model.ts";
import { spreadOf } from "../predict/spread-of.ts";
import type { Workup } from "./workup.ts";

/** Draws of each hypothesis: a look or a fault that comes and goes may turn out either way. */
export const DRAWS = 4;

/** Hypotheses that are planned with, and their numbers in the workup. */
export interface AliveHypotheses {
  readonly numbers: readonly number[];
  readonly hypotheses: readonly Hypothesis[];
}

/** A check as a test of a plan. */
export interface MadeTest {
  readonly test: PlanTest;
  readonly classes: OutcomeClasses | undefined;
}

/**
 * Turns a check into a test of a plan: which outcome each draw of each hypothesis would give.
 *
 * @param workup The workup.
 * @param check The check.
 * @param alive Hypotheses that are planned with; each becomes {@link DRAWS} cases next to each other.
 */
export function makeTest(workup: Workup, check: Check, alive: AliveHypotheses): MadeTest {
  const { numbers, hypotheses } = alive;
  const need = workup.setups.needOf(check.need);
  const { minutes } = check;
  if (!isMeterCheck(check)) {
    return {
      test: { outcomes: handOutcomes(check, hypotheses), outcomeCount: 2, minutes, need },
      classes: undefined,
    };
  }
  const { kind, key } = check;
  const shown = foreseen(hypotheses, workup.readings(check, numbers));
  const samples = samplesOf(shown);
  if (samples.length <= 1 && !isSpecial(samples[0] ?? 0))
    return { test: { ...NO_TEST, minutes, need }, classes: undefined };
  const classes = cutClasses(samples, (point) => 3 * spreadOf(point, kind === "volts" ? "V" : "Ω"));
  return {
    test: { outcomes: meterOutcomes(shown, classes, key), outcomeCount: classes.count, minutes, need },
    classes,
  };
}

/** A check that shows the same whatever the fault. */
const NO_TEST = { outcomes: new Uint8Array(0), outcomeCount: 1 } as const;

/** Every point of the axis that some hypothesis may show, those that follow each other once. */
function samplesOf({ points, others }: Foreseen): Float64Array {
  const samples = new Float64Array(points.length + others.length);
  let count = 0;
  const add = (point: number): void => {
    if (point !== UNKNOWN && (count === 0 || !Object.is(samples[count - 1], point))) samples[count++] = point;
  };
  for (let at = 0; at < points.length; at++) {
    add(points[at] ?? UNKNOWN);
    add(others[at] ?? UNKNOWN);
  }
  return samples.subarray(0, count);
}

function meterOutcomes({ points, others, otherShares }: Foreseen, classes: OutcomeClasses, key: string): Uint8Array {
  const turn = turnOf(key);
  const outcomes = new Uint8Array(points.length * DRAWS);
  const classAt = (point: number): number => (point === UNKNOWN ? 0 : classOf(classes, point));
  points.forEach((point, at) => {
    outcomes.fill(classAt(point), at * DRAWS, (at + 1) * DRAWS);
    const share = otherShares[at] ?? 0;
    if (share === 0) return;
    const other = classAt(others[at] ?? UNKNOWN);
    for (let index = at * DRAWS; index < (at + 1) * DRAWS; index++)
      if (quantile(index, turn) < share) outcomes[index] = other;
  });
  return outcomes;
}

function handOutcomes(check: HandCheck, hypotheses: readonly Hypothesis[]): Uint8Array {
  const turn = turnOf(check.key);
  const shares = hypotheses.map((hypothesis) => faultyShare(check, hypothesis));
  return Uint8Array.from({ length: hypotheses.length * DRAWS }, (_, index) =>
    quantile(index, turn) < (shares[Math.floor(index / DRAWS)] ?? 0) ? 1 : 0,
  );
}

/** Draws stand evenly over 0 to 1, in another order for each hypothesis and check, so that chance in one check is not chance in all. */
function quantile(index: number, turn: number): number {
  const hypothesis = Math.floor(index / DRAWS);
  const draw = ((index % DRAWS) + turn + hypothesis * 3) % DRAWS;
  return (draw + 0.5) / DRAWS;
}

function turnOf(key: string): number {
  let sum = 0;
  for (let index = 0; index < key.length; index++) sum = (sum * 31 + key.charCodeAt(index)) % 9973;
  return sum % DRAWS;
}
