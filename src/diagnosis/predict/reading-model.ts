import { toleranceOf, UNKNOWN, type MeterUnit, type ReadingModel } from "../belief/meter-scale.ts";
import type { Hypothesis } from "../candidates/candidate.ts";

/** Share of readings at rest at which a fault that comes and goes happens to fail. Common practice, no source. */
export const INTERMITTENT_FAILS = 0.1;

/** Readings of a check under some hypotheses. */
interface RowsOfCheck {
  readonly unit: MeterUnit;
  /** Reading of the healthy machine. */
  readonly normal: number;
  /** Reading under each hypothesis, as long as it fails. */
  readonly faulty: Float64Array;
}

/** What a check shows under each hypothesis: as a rule, at other times, and how often it is one of those. */
export type PredictedReading = Pick<ReadingModel, "points" | "others" | "otherShares">;

/**
 * What a check shows under each hypothesis, without what it may be off by.
 *
 * @param hypotheses The hypotheses, in the order of the readings.
 */
export function predicted(
  hypotheses: readonly Hypothesis[],
  { normal, faulty }: Pick<RowsOfCheck, "normal" | "faulty">,
): PredictedReading {
  const points = Float64Array.from(faulty);
  const otherShares = new Float64Array(faulty.length);
  for (let index = 0; index < faulty.length; index++) {
    if (!hypotheses[index]?.isIntermittent) continue;
    points[index] = normal;
    otherShares[index] = INTERMITTENT_FAILS;
  }
  return { points, others: faulty, otherShares };
}

/**
 * What a check is expected to show under each hypothesis, severities between those worked out included.
 *
 * @param hypotheses The hypotheses, in the order of the rows.
 */
export function makeScaleModel(hypotheses: readonly Hypothesis[], { unit, normal, faulty }: RowsOfCheck): ReadingModel {
  const shown = predicted(hypotheses, { normal, faulty });
  return { kind: "scale", unit, ...shown, ...widthsOf(hypotheses, unit, { points: shown.points, faulty }) };
}

/**
 * What a check shows under each hypothesis while its fault is there, severities between those worked out included.
 *
 * @param hypotheses The hypotheses, in the order of the readings.
 */
export function steadyScaleModel(
  hypotheses: readonly Hypothesis[],
  unit: MeterUnit,
  points: Float64Array,
): ReadingModel {
  const widths = widthsOf(hypotheses, unit, { points, faulty: points });
  return { kind: "scale", unit, points, ...widths, others: points, otherShares: new Float64Array(points.length) };
}

/** What readings may be off by, and the way from each to the next severity. */
function widthsOf(
  hypotheses: readonly Hypothesis[],
  unit: MeterUnit,
  { points, faulty }: { readonly points: Float64Array; readonly faulty: Float64Array },
): { readonly spreads: Float64Array; readonly below: Float64Array; readonly above: Float64Array } {
  const below = new Float64Array(faulty.length);
  const above = new Float64Array(faulty.length);
  for (let index = 0; index < faulty.length; index++) {
    // Beyond the first and the last severity, and where the next one can no longer be told, it goes on as it came.
    for (const next of [index - 1, index + 1]) {
      const half = halfWay(hypotheses, faulty, [index, next]);
      if (half < 0) below[index] = Math.max(below[index] ?? 0, -half);
      else above[index] = Math.max(above[index] ?? 0, half);
    }
    if (below[index] === 0) below[index] = above[index] ?? 0;
    else if (above[index] === 0) above[index] = below[index] ?? 0;
  }
  return { spreads: points.map((point) => toleranceOf(point, unit)), below, above };
}

/**
 * Half the way from one severity to another of the same candidate, 0 where there is none. A fault of any severity in between must find a
 * hypothesis that foresaw its reading.
 */
function halfWay(
  hypotheses: readonly Hypothesis[],
  faulty: Float64Array,
  [index, next]: readonly [number, number],
): number {
  const own = faulty[index] ?? UNKNOWN;
  const other = faulty[next] ?? UNKNOWN;
  const [one, two] = [hypotheses[index], hypotheses[next]];
  // A short that blows its fuse and one that does not have nothing in between.
  const isChain =
    one !== undefined &&
    one.candidates[0] !== undefined &&
    one.candidates[0] === two?.candidates[0] &&
    one.faults.length === two.faults.length;
  const isBetween = [own, other].every((point) => Number.isFinite(point) && point !== UNKNOWN);
  return isChain && isBetween ? (other - own) / 2 : 0;
}
