import { unreachable } from "../../base/index.ts";
import type { GivenReading } from "../../records/index.ts";
import { waysThrough } from "../../trace/index.ts";
import type { Evidence } from "../belief/evidence.ts";
import {
  FLOATING,
  fromScale,
  readingLikelihoods,
  toScale,
  UNKNOWN,
  type ReadValue,
  type ScaleModel,
} from "../belief/meter-scale.ts";
import { isMeterCheck, type Check, type HandCheck, type MeterCheck } from "../checks/check.ts";
import { faultyShare, outcomesOf } from "../checks/hand-outcomes.ts";
import { INTERMITTENT_FAILS, makeScaleModel, steadyScaleModel } from "../predict/scale-model.ts";
import type { Workup } from "./workup.ts";

/** Volts below which a reading is a zero that a bad contact of the tip would show too. */
const ZERO_VOLT = 0.05;

/**
 * What a reading says about every hypothesis.
 *
 * @param earlier Voltages that were read before it.
 * @returns The evidence, "something else" last; undefined if the reading says nothing: not sure, cannot be done.
 */
export function evidenceOf(
  workup: Workup,
  check: Check,
  given: GivenReading,
  earlier: readonly ReadVolts[] = [],
): Evidence | undefined {
  switch (given.kind) {
    case "not-sure":
    case "cannot-be-done":
      return undefined;
    case "outcome":
      return isMeterCheck(check) ? undefined : outcomeEvidence(workup, check, given.outcome);
    case "value": {
      const family = isMeterCheck(check) ? relatedTo(workup, check, earlier) : undefined;
      if (family && isMeterCheck(check)) {
        return { ...differenceEvidence(workup, family, { check, volt: given.value }), isDoubtful: isDoubtful(given) };
      }
      return meterEvidence(workup, check, { kind: "value", value: given.value }, isDoubtful(given));
    }
    case "over-range":
      return meterEvidence(workup, check, { kind: "over-range" }, isDoubtful(given));
    case "unsteady":
      return meterEvidence(workup, check, { kind: "unsteady" }, false);
    default:
      return unreachable(given);
  }
}

/** The first earlier voltage of the same lines in the same situation, another check than this one. */
function relatedTo(workup: Workup, check: MeterCheck, earlier: readonly ReadVolts[]): ReadVolts | undefined {
  if (check.kind !== "volts") return undefined;
  const family = familyOf(workup, check);
  return earlier.find((each) => each.check.key !== check.key && familyOf(workup, each.check) === family);
}

/** Whether a reading is one that a bad tip, a wrong range or an open lead shows as well, and the meter was not proven. */
export function needsProof(given: GivenReading): boolean {
  if (given.kind === "over-range") return given.isMeterProven !== true;
  return (
    given.kind === "value" && given.unit === "V" && Math.abs(given.value) < ZERO_VOLT && given.isMeterProven !== true
  );
}

function isDoubtful(given: GivenReading): boolean {
  return (given.kind === "value" && given.isDoubtful === true) || needsProof(given);
}

function meterEvidence(workup: Workup, check: Check, read: ReadValue, isDoubtful: boolean): Evidence | undefined {
  if (!isMeterCheck(check)) return undefined;
  const { likelihoods, even } = readingLikelihoods(scaleModelOf(workup, check), read);
  return { key: check.key, likelihoods: Float64Array.of(...likelihoods, even), even, isDoubtful };
}

/** What a meter check is expected to show under some hypotheses, or all of them where none are named. */
export function scaleModelOf(
  { hypotheses, readings }: Workup,
  check: MeterCheck,
  positions: readonly number[] = [...hypotheses.keys()],
): ScaleModel {
  const of = positions.flatMap((index) => hypotheses[index] ?? []);
  return makeScaleModel(of, { unit: check.kind === "volts" ? "V" : "Ω", ...readings(check, positions) });
}

/**
 * What looking, moving, pulling or exchanging says about every hypothesis.
 *
 * @param check The check; it need not be one of the workup.
 * @returns The evidence, "something else" last; undefined if the check has no such outcome.
 */
export function outcomeEvidence(workup: Workup, check: HandCheck, outcome: string): Evidence | undefined {
  const found = outcomesOf(check).find(({ id }) => id === outcome);
  if (!found) return undefined;
  const likelihoods = workup.hypotheses.map((hypothesis) => {
    const share = faultyShare(check, hypothesis);
    return found.isHealthy ? 1 - share : share;
  });
  // Looking at the wrong place hardly ever shows something: "something else" makes sound outcomes likely too.
  const even = found.isHealthy ? 0.7 : 0.3;
  return { key: check.key, likelihoods: Float64Array.of(...likelihoods, even), even };
}

/** A voltage that was read. */
export interface ReadVolts {
  readonly check: MeterCheck;
  readonly volt: number;
}

/**
 * A name that two readings share if they are of the same lines in the same situation: the battery, a regulator or a load that is a little
 * off moves both alike.
 *
 * @param check A voltage check.
 */
function familyOf({ harness }: Workup, { need, red, black }: MeterCheck): string {
  const { ofNode } = waysThrough(harness, "conductors").components;
  const netOf = (at: string | undefined): number => ofNode[harness.nodeNumbers.get(at ?? "") ?? -1] ?? -1;
  return [need.state, need.unplugged.join(), netOf(red.at), netOf(black.at)].join("|");
}

/**
 * What a voltage says beside an earlier one of its family: only the difference of the two is new, because what moves both alike has been
 * counted already.
 */
function differenceEvidence(workup: Workup, first: ReadVolts, second: ReadVolts): Omit<Evidence, "isDoubtful"> {
  const { hypotheses } = workup;
  const all = [...hypotheses.keys()];
  const before = workup.readings(first.check, all);
  const after = workup.readings(second.check, all);
  const sound = (volt: number): Float64Array => new Float64Array(all.length).fill(volt);
  const likely = (
    from: Float64Array,
    to: Float64Array,
  ): { readonly likelihoods: Float64Array; readonly even: number } =>
    likelyDifferences(workup, { from, to, first: first.volt, second: second.volt });
  const { likelihoods: failing, even } = likely(before.faulty, after.faulty);
  if (!hypotheses.some(({ isIntermittent }) => isIntermittent))
    return { key: second.check.key, likelihoods: Float64Array.of(...failing, even), even };
  // A fault that comes and goes may have been there at either reading, at both or at none.
  const came = likely(sound(before.healthy), after.faulty).likelihoods;
  const went = likely(before.faulty, sound(after.healthy)).likelihoods;
  const none = likely(sound(before.healthy), sound(after.healthy)).likelihoods;
  const wasThere = sharesThere(workup, first, before);
  const likelihoods = failing.map((both, index) => {
    if (!hypotheses[index]?.isIntermittent) return both;
    const there = wasThere[index] ?? 0;
    const stays = there * both + (1 - there) * (came[index] ?? 0);
    const goes = there * (went[index] ?? 0) + (1 - there) * (none[index] ?? 0);
    return INTERMITTENT_FAILS * stays + (1 - INTERMITTENT_FAILS) * goes;
  });
  return { key: second.check.key, likelihoods: Float64Array.of(...likelihoods, even), even };
}

/** How likely it is that a fault that comes and goes was there at a reading, by what was read. */
function sharesThere(workup: Workup, { volt }: ReadVolts, rows: ReturnType<Workup["readings"]>): Float64Array {
  const { hypotheses } = workup;
  const read = { kind: "value", value: volt } as const;
  const likely = (points: Float64Array): Float64Array =>
    readingLikelihoods(steadyScaleModel(hypotheses, "V", points), read).likelihoods;
  const there = likely(rows.faulty);
  const gone = likely(rows.faulty.map(() => rows.healthy));
  return there.map((own, index) => {
    const fails = INTERMITTENT_FAILS * own;
    const total = fails + (1 - INTERMITTENT_FAILS) * (gone[index] ?? 0);
    return total > 0 ? fails / total : INTERMITTENT_FAILS;
  });
}

/** Two readings on the axis of the meter under each hypothesis, and the volts that were read. */
interface TwoReadings {
  readonly from: Float64Array;
  readonly to: Float64Array;
  readonly first: number;
  readonly second: number;
}

/** How likely the difference of two voltages is under each hypothesis, and evenly spread. */
function likelyDifferences(
  { hypotheses }: Workup,
  { from, to, first, second }: TwoReadings,
): { readonly likelihoods: Float64Array; readonly even: number } {
  const points = to.map((point, index) => between(from[index] ?? UNKNOWN, point));
  const model = steadyScaleModel(hypotheses, "V", points);
  // The meter errs in both readings, by their size and not by that of the difference.
  const meterVolt = Math.hypot(meterError(first), meterError(second));
  const spreads = model.spreads.map((spread, index) => {
    const point = points[index] ?? 0;
    const meter = meterVolt / Math.hypot(Number.isFinite(point) ? fromScale(point, "V") : 0, 0.05);
    // A floating lead wanders, so a difference to it does too.
    const isFloating = from[index] === FLOATING || to[index] === FLOATING;
    return Math.max(Math.hypot(spread, meter), isFloating ? 1 : 0);
  });
  return readingLikelihoods({ ...model, spreads }, { kind: "value", value: second - first });
}

/** The difference of two readings on the axis. */
function between(from: number, to: number): number {
  if (from === UNKNOWN || to === UNKNOWN) return UNKNOWN;
  if (Number.isNaN(from) || Number.isNaN(to)) return NaN;
  return toScale(voltOf(to) - voltOf(from), "V");
}

/** One standard deviation of a hand meter: half of 0.5 % and 20 mV. Source: instrument manuals, limits taken as two deviations. */
function meterError(volt: number): number {
  return 0.5 * (0.005 * Math.abs(volt) + 0.02);
}

function voltOf(point: number): number {
  return point === FLOATING ? 0 : fromScale(point, "V");
}
