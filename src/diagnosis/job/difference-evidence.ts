import { waysThrough } from "../../trace/index.ts";
import { FLOATING, fromScale, toScale } from "../belief/meter-scale.ts";
import { readingLikelihoods, UNKNOWN } from "../belief/reading-likelihood.ts";
import type { Evidence } from "../belief/evidence.ts";
import type { MeterCheck } from "../checks/check.ts";
import { makeScaleModel } from "../predict/scale-model.ts";
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
  const all = [...workup.hypotheses.keys()];
  const before = workup.readings(first.check, all);
  const after = workup.readings(second.check, all);
  const between = (a: number, b: number): number => {
    if (a === UNKNOWN || b === UNKNOWN) return UNKNOWN;
    if (Number.isNaN(a) || Number.isNaN(b)) return NaN;
    return toScale(voltOf(b) - voltOf(a), "V");
  };
  const faulty = after.faulty.map((point, index) => between(before.faulty[index] ?? UNKNOWN, point));
  const model = makeScaleModel(workup.hypotheses, {
    unit: "V",
    healthy: between(before.healthy, after.healthy),
    faulty,
  });
  const isFloating = (index: number): boolean => before.faulty[index] === FLOATING || after.faulty[index] === FLOATING;
  // The meter errs in both readings, by their size and not by that of the difference.
  const meterVolt = Math.hypot(meterError(first.volt), meterError(second.volt));
  const spreads = model.spreads.map((spread, index) => {
    const point = model.points[index] ?? 0;
    const meter = meterVolt / Math.hypot(Number.isFinite(point) ? fromScale(point, "V") : 0, 0.05);
    // A floating lead wanders, so a difference to it does too.
    return Math.max(Math.hypot(spread, meter), isFloating(index) ? 1 : 0);
  });
  const read = { kind: "value", value: second.volt - first.volt } as const;
  const { likelihoods, even } = readingLikelihoods({ ...model, spreads }, read);
  return { key: second.check.key, likelihoods: Float64Array.of(...likelihoods, even), even };
}

/** One standard deviation of a hand meter: half of 0.5 % and 20 mV. Source: instrument manuals, limits taken as two deviations. */
function meterError(volt: number): number {
  return 0.5 * (0.005 * Math.abs(volt) + 0.02);
}

function voltOf(point: number): number {
  return point === FLOATING ? 0 : fromScale(point, "V");
}
