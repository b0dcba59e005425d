import { FLOATING, OVER_RANGE, SCALE_LENGTH, toScale, UNSTEADY, type MeterUnit } from "./meter-scale.ts";

/** What a check is expected to show under each hypothesis: points of the axis, drawn over tolerances and severity. */
export interface ScaleModel {
  readonly kind: "scale";
  readonly unit: MeterUnit;
  /** Samples of each hypothesis; an empty list means that nothing is known of it. */
  readonly samples: readonly Float64Array[];
  /** Spread of a single sample, in units of the axis: meter and what was not drawn. */
  readonly bandwidth: number;
}

/** What was read. */
export type ReadValue =
  { readonly kind: "value"; readonly value: number } | { readonly kind: "over-range" } | { readonly kind: "unsteady" };

/** Share of readings on a floating lead that do not keep still. Common practice, no source. */
const FLOATING_UNSTEADY = 0.3;
/** Spread of what a meter shows on a floating lead, in units of the axis: some tens of millivolts. */
const FLOATING_SPREAD = 1;

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
  const density = 1 / SCALE_LENGTH[model.unit];
  const even = read.kind === "value" ? density : 0.125;
  const ofSample = sampleLikelihood(model, read);
  const likelihoods = Float64Array.from(model.samples, (samples) => {
    if (samples.length === 0) return even;
    let sum = 0;
    for (const sample of samples) sum += ofSample(sample);
    return sum / samples.length;
  });
  return { likelihoods, even };
}

function sampleLikelihood(model: ScaleModel, read: ReadValue): (sample: number) => number {
  switch (read.kind) {
    case "over-range":
      return (sample) => (sample === OVER_RANGE ? 1 : 0);
    case "unsteady":
      return (sample) => {
        if (Number.isNaN(sample)) return 0.9;
        return sample === FLOATING ? FLOATING_UNSTEADY : 0;
      };
    case "value": {
      const at = toScale(read.value, model.unit);
      return (sample) => {
        // What does not keep still may be read at a moment when it does.
        if (Number.isNaN(sample)) return 0.1 / SCALE_LENGTH[model.unit];
        if (sample === FLOATING) return (1 - FLOATING_UNSTEADY) * bell(at, FLOATING_SPREAD);
        return sample === OVER_RANGE ? 0 : bell(at - sample, model.bandwidth);
      };
    }
  }
}

function bell(distance: number, spread: number): number {
  const ratio = distance / spread;
  return Math.exp(-0.5 * ratio * ratio) / (spread * Math.sqrt(2 * Math.PI));
}

/** Whether a sample is one of the special marks instead of a point of the axis. */
export function isSpecial(sample: number): boolean {
  return sample === OVER_RANGE || sample === FLOATING || Object.is(sample, UNSTEADY) || Number.isNaN(sample);
}
