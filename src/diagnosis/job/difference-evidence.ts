import { waysThrough } from "../../trace/index.ts";
import { FLOATING, fromScale, toScale } from "../belief/meter-scale.ts";
import { readingLikelihoods, UNKNOWN } from "../belief/reading-likelihood.ts";
import type { Evidence } from "../belief/evidence.ts";
import type { MeterCheck } from "../checks/check.ts";
import { INTERMITTENT_FAILS, steadyScaleModel } from "../predict/scale-model.ts";
import type { Workup } from "./workup.ts";

/** A voltage that was read. */
export interface ReadVolts {
  readonly check: MeterCheck;
  readonly volt: number;
}

/**
 * A name that two readings share if they are of the same lines in the same situation: the battery, a regulator or a load that is a little
 * off moves both alike.
 *
 * @param workup The workup.
 * @param check A voltage check.
 */
export function familyOf({ harness }: Workup, { need, red, black }: MeterCheck): string {
  const { ofNode } = waysThrough(harness, "conductors").components;
  const netOf = (at: string | undefined): number => ofNode[harness.nodeNumbers.get(at ?? "") ?? -1] ?? -1;
  return [need.state, need.unplugged.join(), netOf(red.at), netOf(black.at)].join("|");
}

/**
 * What a voltage says beside an earlier one of its family: only the difference of the two is new, because what moves both alike has been
 * counted already.
 *
 * @param workup The workup.
 * @param first The earlier reading.
 * @param second The reading to count.
 */
export function differenceEvidence(workup: Workup, first: ReadVolts, second: ReadVolts): Omit<Evidence, "isDoubtful"> {
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
