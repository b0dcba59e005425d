import { FLOATING, OVER_RANGE, SCALE_LENGTH, toScale, type MeterUnit } from "./meter-scale.ts";

/** What a meter check is expected to show under each hypothesis, on the axis of its unit. */
export interface ScaleModel {
  readonly kind: "scale";
  readonly unit: MeterUnit;
  /** Expected reading of each hypothesis, or a special mark. */
  readonly points: Float64Array;
  /** Spread of each: tolerances and meter. In units of the axis. */
  readonly spreads: Float64Array;
  /** Half the way to the next severity that was worked out, where a fault in between would read in between; 0 elsewhere. */
  readonly gaps?: Float64Array;
  /** What the same hypothesis shows at other times; a fault that comes and goes behaves as a rule and fails now and then. */
  readonly others: Float64Array;
  /** Share of readings at those other times. */
  readonly otherShares: Float64Array;
}

/** Stands for a reading that could not be worked out: it says nothing for or against the hypothesis. */
export const UNKNOWN = -1e9;

/** What was read. */
export type ReadValue =
  { readonly kind: "value"; readonly value: number } | { readonly kind: "over-range" } | { readonly kind: "unsteady" };

/** Share of readings on a floating lead that do not keep still. Common practice, no source. */
const FLOATING_UNSTEADY = 0.3;
/** Spread of what a meter shows on a floating lead, in units of the axis: some tens of millivolts. */
const FLOATING_SPREAD = 1;
/** Likelihood of over range or unsteady where nothing is known: one of eight sorts of outcome. */
const EVEN_SPECIAL = 0.125;
/** Share of faults that are as severe as one of the severities worked out; the others lie somewhere between two of them. */
const AS_WORKED_OUT = 0.6;

/**
 * Likelihood of a reading under each hypothesis: a density on the axis for a value, a probability for over range and unsteady.
 *
 * @param model What is expected.
 * @param read What was read.
 * @returns One likelihood a hypothesis, and what an even spread would give.
 */
export function readingLikelihoods(
  model: ScaleModel,
  read: ReadValue,
): { readonly likelihoods: Float64Array; readonly even: number } {
  const even = read.kind === "value" ? 1 / SCALE_LENGTH[model.unit] : EVEN_SPECIAL;
  const at = read.kind === "value" ? toScale(read.value, model.unit) : 0;
  const ofPoint = (point: number, spread: number, gap: number): number => {
    if (point === UNKNOWN) return even;
    if (read.kind === "over-range") return point === OVER_RANGE ? 1 : 0;
    if (read.kind === "unsteady") return unsteadyShare(point);
    // What does not keep still may be read at a moment when it does.
    if (Number.isNaN(point)) return 0.1 * even;
    if (point === FLOATING) return (1 - FLOATING_UNSTEADY) * bell(at, FLOATING_SPREAD);
    if (point === OVER_RANGE) return 0;
    const near = bell(at - point, spread);
    return gap > 0 ? AS_WORKED_OUT * near + (1 - AS_WORKED_OUT) * bell(at - point, Math.hypot(spread, gap)) : near;
  };
  const likelihoods = model.points.map((point, index) => {
    const spread = model.spreads[index] ?? 1;
    const share = model.otherShares[index] ?? 0;
    const gap = model.gaps?.[index] ?? 0;
    const own = ofPoint(point, spread, gap);
    if (share === 0) return own;
    // A fault that changes between its two states while it is read shows as unsteady.
    const moving = read.kind === "unsteady" ? share : 0;
    return (1 - share) * own + share * ofPoint(model.others[index] ?? UNKNOWN, spread, gap) + moving;
  });
  return { likelihoods, even };
}

function unsteadyShare(point: number): number {
  if (Number.isNaN(point)) return 0.9;
  return point === FLOATING ? FLOATING_UNSTEADY : 0;
}

function bell(distance: number, spread: number): number {
  const ratio = distance / spread;
  return Math.exp(-0.5 * ratio * ratio) / (spread * Math.sqrt(2 * Math.PI));
}
