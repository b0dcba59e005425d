import { unreachable } from "../../base/index.ts";
import type { EnteredReading } from "../../job-records/index.ts";
import { waysThrough } from "../../connectivity/index.ts";
import type { Evidence } from "../belief/evidence.ts";
import {
  FLOATING,
  fromScale,
  readingLikelihoods,
  toScale,
  UNIT_OF_METER,
  UNKNOWN,
  type ReadValue,
  type ReadingModel,
} from "../belief/meter-scale.ts";
import { isMeterCheck, type Check, type InspectionCheck, type MeterCheck } from "../checks/check.ts";
import { NOT_MATED, outcomeShare, outcomesOf } from "../checks/inspection-outcomes.ts";
import { INTERMITTENT_FAILS, makeScaleModel, steadyScaleModel } from "../predict/reading-model.ts";
import { openLineOhm } from "../predict/ohm-path.ts";
import type { DiagnosisModel } from "./diagnosis-model.ts";

/** Volts below which a reading is a zero that a bad contact of the tip would show too. */
const ZERO_VOLT = 0.05;

/**
 * What a reading says about every hypothesis.
 *
 * @param earlier Voltages that were read before it.
 * @returns The evidence, "something else" last; undefined if the reading says nothing: not sure, cannot be done.
 */
export function evidenceOf(
  model: DiagnosisModel,
  check: Check,
  given: EnteredReading,
  earlier: readonly ReadVolts[] = [],
): Evidence | undefined {
  switch (given.kind) {
    case "unsure":
    case "not-possible":
      return undefined;
    case "outcome":
      return isMeterCheck(check) ? undefined : outcomeEvidence(model, check, given.outcome);
    case "value": {
      const family = isMeterCheck(check) ? relatedTo(model, check, earlier) : undefined;
      if (family && isMeterCheck(check)) {
        return { ...differenceEvidence(model, family, { check, volt: given.value }), isDoubtful: isDoubtful(given) };
      }
      return meterEvidence(model, check, readOf(model, check, given.value), isDoubtful(given));
    }
    case "overload":
      return meterEvidence(model, check, { kind: "overload" }, isDoubtful(given));
    case "unstable":
      return meterEvidence(model, check, { kind: "unstable" }, false);
    default:
      return unreachable(given);
  }
}

/** So many ohms where there should be a conductor say the same as an open line. */
function readOf(model: DiagnosisModel, check: Check, value: number): ReadValue {
  const isOpen = check.kind === "resistance" && value > openLineOhm(fromScale(model.readings(check, []).normal, "Ω"));
  return isOpen ? { kind: "overload" } : { kind: "value", value };
}

/** The first earlier voltage of the same lines in the same situation, another check than this one. */
function relatedTo(model: DiagnosisModel, check: MeterCheck, earlier: readonly ReadVolts[]): ReadVolts | undefined {
  if (check.kind !== "dc-voltage") return undefined;
  const family = familyOf(model, check);
  return earlier.find((each) => each.check.key !== check.key && familyOf(model, each.check) === family);
}

/** Whether a reading is one that a bad tip, a wrong range or an open lead shows as well, and the meter was not proven. */
export function needsVerification(given: EnteredReading): boolean {
  if (given.kind === "overload") return given.isMeterProven !== true;
  return (
    given.kind === "value" && given.unit === "V" && Math.abs(given.value) < ZERO_VOLT && given.isMeterProven !== true
  );
}

function isDoubtful(given: EnteredReading): boolean {
  return (given.kind === "value" && given.isDoubtful === true) || needsVerification(given);
}

function meterEvidence(
  model: DiagnosisModel,
  check: Check,
  read: ReadValue,
  isDoubtful: boolean,
): Evidence | undefined {
  if (!isMeterCheck(check)) return undefined;
  const { likelihoods, even } = readingLikelihoods(scaleModelOf(model, check), read);
  const other = LEFT_ALONE * healthyLikelihood(model, check, read) + (1 - LEFT_ALONE) * even;
  return { key: check.key, likelihoods: Float64Array.of(...likelihoods, other), even, isDoubtful };
}

/** Share of readings that a fault which is not listed leaves as they are. Common practice, no source. */
const LEFT_ALONE = 0.6;

function healthyLikelihood(model: DiagnosisModel, check: MeterCheck, read: ReadValue): number {
  const points = Float64Array.of(model.readings(check, []).normal);
  const [likelihood = 0] = readingLikelihoods(
    steadyScaleModel([], UNIT_OF_METER[check.kind], points),
    read,
  ).likelihoods;
  return likelihood;
}

/** What a meter check is expected to show under some hypotheses, or all of them where none are named. */
export function scaleModelOf(
  { hypotheses, readings }: DiagnosisModel,
  check: MeterCheck,
  positions: readonly number[] = [...hypotheses.keys()],
): ReadingModel {
  const of = positions.flatMap((index) => hypotheses[index] ?? []);
  return makeScaleModel(of, { unit: UNIT_OF_METER[check.kind], ...readings(check, positions) });
}

/**
 * What looking, moving, pulling or exchanging says about every hypothesis.
 *
 * @param check The check; it need not be one of the workup.
 * @returns The evidence, "something else" last; undefined if the check has no such outcome.
 */
export function outcomeEvidence(model: DiagnosisModel, check: InspectionCheck, outcome: string): Evidence | undefined {
  const found = outcomesOf(check).find(({ id }) => id === outcome);
  if (!found) return undefined;
  const likelihoods = model.hypotheses.map((hypothesis) => outcomeShare(check, hypothesis, found));
  // Looking at the wrong place hardly ever shows something: "something else" makes sound outcomes likely too.
  const even = found.isNormal ? 0.7 : found.id === NOT_MATED ? 0.001 : 0.3;
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
function familyOf({ harness }: DiagnosisModel, { need, red, black }: MeterCheck): string {
  const { ofNode } = waysThrough(harness, "conductors").components;
  const netOf = (at: string | undefined): number => ofNode[harness.nodeNumbers.get(at ?? "") ?? -1] ?? -1;
  return [need.state, need.unplugged.join(), netOf(red.at), netOf(black.at)].join("|");
}

/**
 * What a voltage says beside an earlier one of its family: only the difference of the two is new, because what moves both alike has been
 * counted already.
 */
function differenceEvidence(model: DiagnosisModel, first: ReadVolts, second: ReadVolts): Omit<Evidence, "isDoubtful"> {
  const { hypotheses } = model;
  const all = [...hypotheses.keys()];
  const before = model.readings(first.check, all);
  const after = model.readings(second.check, all);
  const sound = (volt: number): Float64Array => new Float64Array(all.length).fill(volt);
  const likely = (
    from: Float64Array,
    to: Float64Array,
  ): { readonly likelihoods: Float64Array; readonly even: number } =>
    likelyDifferences(model, { from, to, first: first.volt, second: second.volt });
  const { likelihoods: failing, even } = likely(before.faulty, after.faulty);
  if (!hypotheses.some(({ isIntermittent }) => isIntermittent))
    return { key: second.check.key, likelihoods: Float64Array.of(...failing, even), even };
  // A fault that comes and goes may have been there at either reading, at both or at none.
  const came = likely(sound(before.normal), after.faulty).likelihoods;
  const went = likely(before.faulty, sound(after.normal)).likelihoods;
  const none = likely(sound(before.normal), sound(after.normal)).likelihoods;
  const wasThere = sharesThere(model, first, before);
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
function sharesThere(
  model: DiagnosisModel,
  { volt }: ReadVolts,
  rows: ReturnType<DiagnosisModel["readings"]>,
): Float64Array {
  const { hypotheses } = model;
  const read = { kind: "value", value: volt } as const;
  const likely = (points: Float64Array): Float64Array =>
    readingLikelihoods(steadyScaleModel(hypotheses, "V", points), read).likelihoods;
  const there = likely(rows.faulty);
  const gone = likely(rows.faulty.map(() => rows.normal));
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
  { hypotheses }: DiagnosisModel,
  { from, to, first, second }: TwoReadings,
): { readonly likelihoods: Float64Array; readonly even: number } {
  const points = to.map((point, index) => between(from[index] ?? UNKNOWN, point));
  const readingModel = steadyScaleModel(hypotheses, "V", points);
  // The meter errs in both readings, by their size and not by that of the difference.
  const meterVolt = Math.hypot(meterError(first), meterError(second));
  const spreads = readingModel.spreads.map((spread, index) => {
    const point = points[index] ?? 0;
    const meter = meterVolt / Math.hypot(Number.isFinite(point) ? fromScale(point, "V") : 0, 0.05);
    // A floating lead wanders, so a difference to it does too.
    const isFloating = from[index] === FLOATING || to[index] === FLOATING;
    return Math.max(Math.hypot(spread, meter), isFloating ? 1 : 0);
  });
  return readingLikelihoods({ ...readingModel, spreads }, { kind: "value", value: second - first });
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
