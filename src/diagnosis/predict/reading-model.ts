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
): { readonly spreads: Float64Array; readonly gaps: Float64Array } {
  return {
    spreads: points.map((point) => toleranceOf(point, unit)),
    gaps: faulty.map((_, index) => halfGap(hypotheses, faulty, index)),
  };
}

/**
 * Half the way to the next severity of the same candidate. A fault of any severity in between must find a hypothesis that foresaw its
 * reading.
 */
function halfGap(hypotheses: readonly Hypothesis[], faulty: Float64Array, index: number): number {
  const own = faulty[index] ?? UNKNOWN;
  const [candidate] = hypotheses[index]?.candidates ?? [];
  const faultCount = hypotheses[index]?.faults.length;
  if (!Number.isFinite(own) || own === UNKNOWN) return 0;
  let widest = 0;
  for (const next of [index - 1, index + 1]) {
    const other = faulty[next] ?? UNKNOWN;
    // A short that blows its fuse and one that does not have nothing in between.
    if (
      hypotheses[next]?.faults.length !== faultCount ||
      hypotheses[next]?.candidates[0] !== candidate ||
      !Number.isFinite(other) ||
      other === UNKNOWN
    )
      continue;
    widest = Math.max(widest, Math.abs(other - own) / 2.5);
  }
  return widest;
}
