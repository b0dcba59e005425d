/** What a meter can show of a voltage, resistance or current. */
export type MeterUnit = "V" | "Ω" | "A";

/** The unit that each sort of reading is in. */
export const UNIT_OF_METER = { "dc-voltage": "V", resistance: "Ω", current: "A" } as const satisfies Readonly<
  Record<string, MeterUnit>
>;

/**
 * The axis that readings are compared on. Volts and amperes: nearly even around zero, by ratio above, sign kept. Ohms: by ratio above
 * half an ohm, because leads and the meter hide what is below.
 */
export const OVER_RANGE = Infinity;
/** Stands for a reading that does not keep still. */
export const UNSTEADY = NaN;
/** Stands for a lead that hangs on nothing: near 0 V on most meters, but no voltage at all. */
export const FLOATING = -Infinity;

/**
 * Puts a reading on the axis of its unit.
 *
 * @param value Volts, ohms or amperes; Infinity for over range, which stays so.
 * @param unit The unit.
 */
export function toScale(value: number, unit: MeterUnit): number {
  if (!Number.isFinite(value)) return value;
  if (unit === "Ω") return Math.log(Math.max(value, 0) + 0.5);
  return Math.asinh(value / 0.05);
}

/** Takes a point of the axis back to volts, ohms or amperes. */
export function fromScale(point: number, unit: MeterUnit): number {
  if (!Number.isFinite(point)) return point;
  if (unit === "Ω") return Math.max(0, Math.exp(point) - 0.5);
  return 0.05 * Math.sinh(point);
}

/** Length of the axis that readings of a 12 V or 24 V machine fall on, for the density of an even spread. */
const SCALE_LENGTH: Readonly<Record<MeterUnit, number>> = { V: 9, Ω: 17, A: 12 };

/** What a meter check is expected to show under each hypothesis, on the axis of its unit. */
export interface ReadingModel {
  readonly kind: "scale";
  readonly unit: MeterUnit;
  /** Expected reading of each hypothesis, or a special mark. */
  readonly points: Float64Array;
  /** Spread of each: tolerances and meter. In units of the axis. */
  readonly spreads: Float64Array;
  /**
   * How far below and above its point a hypothesis reaches, half the way to the next severity that was worked out: any severity in between
   * reads in between. 0 where there is none.
   */
  readonly below?: Float64Array;
  readonly above?: Float64Array;
  /** What the same hypothesis shows at other times; a fault that comes and goes behaves as a rule and fails now and then. */
  readonly others: Float64Array;
  /** Share of readings at those other times. */
  readonly otherShares: Float64Array;
}

/** Stands for a reading that could not be worked out: it says nothing for or against the hypothesis. */
export const UNKNOWN = -1e9;

/** What was read. */
export type ReadValue =
  { readonly kind: "value"; readonly value: number } | { readonly kind: "overload" } | { readonly kind: "unstable" };

/** Share of readings on a floating lead that do not keep still. Common practice, no source. */
const FLOATING_UNSTEADY = 0.3;
/**
 * What a meter shows on a floating lead: mostly 0 V, because it is the only thing that ties the lead down; else some tens of millivolts. In
 * units of the axis. Common practice, no source.
 */
const FLOATING_SPREAD = { still: 0.2, picking: 1, stillShare: 0.6 } as const;
/** What does not keep still may show anything: so much of an even spread. Common practice, no source. */
const MOVING_SHARE = 0.5;
/** Likelihood of over range or unsteady where nothing is known: one of eight sorts of outcome. */
const EVEN_SPECIAL = 0.125;

/**
 * Likelihood of a reading under each hypothesis: a density on the axis for a value, a probability for over range and unsteady.
 *
 * @returns One likelihood a hypothesis, and what an even spread would give.
 */
export function readingLikelihoods(
  model: ReadingModel,
  read: ReadValue,
): { readonly likelihoods: Float64Array; readonly even: number } {
  const even = read.kind === "value" ? 1 / SCALE_LENGTH[model.unit] : EVEN_SPECIAL;
  const at = read.kind === "value" ? toScale(read.value, model.unit) : 0;
  const ofPoint = (point: number, index: number): number => {
    const spread = model.spreads[index] ?? 1;
    if (point === UNKNOWN) return even;
    if (read.kind === "overload") return point === OVER_RANGE ? 1 : 0;
    if (read.kind === "unstable") return unsteadyShare(point);
    if (Number.isNaN(point)) return MOVING_SHARE * even;
    if (point === FLOATING) return (1 - FLOATING_UNSTEADY) * floatingDensity(at);
    if (point === OVER_RANGE) return 0;
    return stretchDensity(at - point, spread, [model.below?.[index] ?? 0, model.above?.[index] ?? 0]);
  };
  const likelihoods = model.points.map((point, index) => {
    const share = model.otherShares[index] ?? 0;
    const own = ofPoint(point, index);
    if (share === 0) return own;
    // A fault that changes between its two states while it is read shows as unsteady.
    const moving = read.kind === "unstable" ? share : 0;
    return (1 - share) * own + share * ofPoint(model.others[index] ?? UNKNOWN, index) + moving;
  });
  return { likelihoods, even };
}

function unsteadyShare(point: number): number {
  if (Number.isNaN(point)) return 0.9;
  return point === FLOATING ? FLOATING_UNSTEADY : 0;
}

function floatingDensity(at: number): number {
  const { still, picking, stillShare } = FLOATING_SPREAD;
  return stillShare * bell(at, still) + (1 - stillShare) * bell(at, picking);
}

/** Density of an even stretch around 0, seen through a spread. */
function stretchDensity(distance: number, spread: number, [below, above]: readonly [number, number]): number {
  const width = below + above;
  if (width < 0.5 * spread) return bell(distance, spread);
  return (normalShare((distance + below) / spread) - normalShare((distance - above) / spread)) / width;
}

/**
 * Share of a normal distribution below a number of standard deviations.
 *
 * Source: the logistic approximation of S. R. Bowling and others, A logistic approximation to the cumulative normal distribution, Journal of
 * Industrial Engineering and Management 2 (2009), off by at most 0.00014 (from memory; compared in the tests).
 */
function normalShare(deviations: number): number {
  return 1 / (1 + Math.exp(-(0.07056 * deviations ** 3 + 1.5976 * deviations)));
}

function bell(distance: number, spread: number): number {
  const ratio = distance / spread;
  return Math.exp(-0.5 * ratio * ratio) / (spread * Math.sqrt(2 * Math.PI));
}

/** Outcome classes of a check: cuts between values, and whether the special marks occur. */
export interface OutcomeClasses {
  /** Points of the axis between two classes of values, rising. */
  readonly cuts: readonly number[];
  readonly hasOverRange: boolean;
  readonly hasUnsteady: boolean;
  readonly count: number;
}

/** Most classes a check is planned with. */
const MOST_CLASSES = 8;

/**
 * Cuts the axis into outcome classes at the largest gaps between the samples of all hypotheses.
 *
 * @param pooled Samples of every hypothesis that matters, in any order, special marks among them.
 * @param leastGap No cut is made in a gap narrower than this around a point, because a reading could not tell the two sides apart.
 * @returns At most 8 classes. A floating lead counts with the values around 0, which is what the meter shows.
 */
export function cutClasses(pooled: Float64Array, leastGap: (point: number) => number): OutcomeClasses {
  const hasOverRange = pooled.includes(OVER_RANGE);
  const hasUnsteady = pooled.some((sample) => Number.isNaN(sample));
  const values = pooled
    .filter((sample) => !Number.isNaN(sample) && sample !== OVER_RANGE)
    .map((sample) => (sample === FLOATING ? 0 : sample))
    .sort();
  const gaps: { readonly at: number; readonly width: number }[] = [];
  for (let index = 1; index < values.length; index++) {
    const low = values[index - 1] ?? 0;
    const width = (values[index] ?? 0) - low;
    if (width === 0) continue;
    const at = low + width / 2;
    const least = leastGap(at);
    if (width >= least) gaps.push({ at, width: width / least });
  }
  const special = Number(hasOverRange) + Number(hasUnsteady);
  const most = Math.max(0, MOST_CLASSES - special - 1);
  const cuts = gaps
    .sort((a, b) => b.width - a.width)
    .slice(0, most)
    .map(({ at }) => at)
    .sort((a, b) => a - b);
  return { cuts, hasOverRange, hasUnsteady, count: cuts.length + 1 + special };
}

/**
 * The class that a sample or a reading falls into: values by rising cut, then over range, then unsteady.
 *
 * @param sample A point of the axis or a special mark.
 */
export function classOf(classes: OutcomeClasses, sample: number): number {
  const { cuts, hasOverRange, hasUnsteady } = classes;
  if (Number.isNaN(sample)) return hasUnsteady ? cuts.length + 1 + Number(hasOverRange) : 0;
  if (sample === OVER_RANGE) return hasOverRange ? cuts.length + 1 : cuts.length;
  const value = sample === FLOATING ? 0 : sample;
  let index = 0;
  while (index < cuts.length && value > (cuts[index] ?? Infinity)) index += 1;
  return index;
}

/** Whether a point is one of the special marks instead of a place on the axis. */
export function isSpecial(point: number): boolean {
  return Number.isNaN(point) || point === OVER_RANGE || point === FLOATING;
}

/**
 * Spread of a reading that nothing is wrong with, as one standard deviation on the axis of its unit: tolerances of the parts, state of the
 * battery, meter.
 *
 * Volts: 2.5 % of the voltage, which covers battery, regulators and sensors; a fifth of what is below 0.2 V, because small voltages are
 * drops along wires and joints; half of a meter's 0.5 % and 20 mV. Ohms: 5 % and 0.15 ohm of leads.
 *
 * @param point A reading on the axis; special marks have no spread and get that of 0.
 * @param unit The unit.
 *
 * Source: meter limits taken as two standard deviations after instrument manuals; the rest common practice, no source. Compared with bands
 * worked out part by part in the tests.
 */
export function toleranceOf(point: number, unit: MeterUnit): number {
  const value = Number.isFinite(point) ? Math.abs(fromScale(point, unit)) : 0;
  switch (unit) {
    case "V": {
      const parts = 0.025 * value + 0.2 * Math.min(value, 0.2);
      const meter = 0.5 * (0.005 * value + 0.02);
      return (parts + meter) / Math.hypot(value, 0.05);
    }
    case "Ω":
      return (0.05 * value + 0.15) / (value + 0.5);
    case "A":
      return (0.1 * value + 0.02) / Math.hypot(value, 0.05);
  }
}
