import type { QuestionProblem } from "../network/part.ts";

/** What is measured, and where. Points are written as everywhere: `A1.X1:36`, `XE1e:1`, `G2-`, the ring `W06@GND-C1`. */
export type Probe =
  | { readonly kind: "dc-voltage"; readonly red: string; readonly black: string }
  /** Volts along a way while it carries its load. */
  | { readonly kind: "voltage-drop"; readonly red: string; readonly black: string }
  /** Ohms; what the leads have, and whether it was taken off the reading (it was, where nothing is said). */
  | { readonly kind: "resistance"; readonly red: string; readonly black: string; readonly leads?: Leads }
  /** Clamp around a wire, positive from its first end to its second. */
  | { readonly kind: "dc-current"; readonly wire: string }
  /** Volts across a lamp of so many watts (21 where nothing is said) held between two points. */
  | { readonly kind: "loaded"; readonly red: string; readonly black: string; readonly lampWatt?: number }
  /** Share of the time the red point is high. */
  | { readonly kind: "duty-cycle"; readonly red: string; readonly black: string };

/** Test leads on ohms. */
export interface Leads {
  readonly ohm: number;
  readonly subtracted: boolean;
}

/** One reason why a reading is what it is, or why its band is as wide as it is. */
export interface Because {
  readonly code:
    | "supply"
    | "part"
    | "temperature"
    | "meter"
    | "leads"
    | "assumption"
    | "average"
    | "weak-source"
    | "current"
    | "no-load"
    | "ohms-no-evidence"
    | "polarity"
    | "floating"
    | "lamp"
    | "live"
    | "blown"
    | "hidden"
    | "no-figure";
  readonly text: string;
}

/** A unit a reading has. */
export type ReadingUnit = "V" | "Ω" | "A" | "%";

/** What a meter says, without the states it holds in. */
export type PlainReading =
  /** A number, with the band a healthy reading lies in. */
  | {
      readonly kind: "value";
      readonly value: number;
      readonly unit: ReadingUnit;
      readonly low: number;
      readonly high: number;
      readonly because: readonly Because[];
    }
  /** A lead on something that nothing ties to the rest; the display wanders about 0, which is not a zero. */
  | { readonly kind: "floating"; readonly island: string; readonly because: readonly Because[] }
  /** More than the highest range: no way from one lead to the other. */
  | { readonly kind: "overload"; readonly unit: ReadingUnit; readonly because: readonly Because[] }
  /** The measurement would mean nothing or do harm; `disconnect` names what has to be taken off first. */
  | { readonly kind: "refused"; readonly disconnect: readonly string[]; readonly because: readonly Because[] }
  | { readonly kind: "contradictory"; readonly sources: readonly string[] }
  | { readonly kind: "no-steady-state"; readonly noOperatingPoint: readonly string[] }
  | { readonly kind: "wrong-question"; readonly problems: readonly QuestionProblem[] };

/** What a meter says, and the states of the machine in which it says the same within the band. */
export type Reading = PlainReading & { readonly holdsIn: readonly string[] };

/** Accuracy of one function of a meter: give or take a share of the reading plus so many counts of the last digit. */
export interface MeterFunction {
  readonly percent: number;
  readonly counts: number;
  /** Ranges as [highest reading, value of one count], rising. */
  readonly ranges: readonly (readonly [number, number])[];
}

/** A hand meter with a clamp, as the answers assume it. */
export interface MeterSpec {
  readonly name: string;
  /** Input resistance on volts, in ohm. */
  readonly inputOhm: number;
  readonly volts: MeterFunction;
  readonly ohms: MeterFunction;
  readonly clampAmps: MeterFunction;
  readonly duty: MeterFunction;
}

/**
 * A usual hand meter: 6000 counts, 10 Mohm on volts, and a clamp for direct current.
 *
 * Source: 10 Mohm and +-(0.5 % + 2 counts) on direct voltage are usual in instrument manuals; the ranges and the other functions are
 * common practice, no source. Put your own meter in where it differs.
 */
export const HAND_METER: MeterSpec = {
  name: "hand meter, 6000 counts",
  inputOhm: 10e6,
  volts: {
    percent: 0.5,
    counts: 2,
    ranges: [
      [0.6, 0.0001],
      [6, 0.001],
      [60, 0.01],
      [600, 0.1],
    ],
  },
  ohms: {
    percent: 0.9,
    counts: 2,
    ranges: [
      [600, 0.1],
      [6e3, 1],
      [60e3, 10],
      [600e3, 100],
      [6e6, 1e3],
      [60e6, 10e3],
    ],
  },
  clampAmps: {
    percent: 2,
    counts: 5,
    ranges: [
      [60, 0.01],
      [1000, 0.1],
    ],
  },
  duty: { percent: 0, counts: 10, ranges: [[100, 0.1]] },
};

/**
 * How far a reading may be off by the meter alone, with the value of one count in the range it is read in.
 *
 * @returns The limit and the count, or undefined where the value is over the highest range.
 * @example
 * ```ts
 * import { HAND_METER, meterLimit } from "ohmward/simulation";
 * expect(meterLimit(HAND_METER.volts, 12.6)?.limit).toBeCloseTo(0.083, 10);
 * expect(meterLimit(HAND_METER.ohms, 1e9)).toBeUndefined();
 * ```
 */
export function meterLimit(
  how: MeterFunction,
  value: number,
): { readonly limit: number; readonly count: number } | undefined {
  const size = Math.abs(value);
  const range = how.ranges.find(([highest]) => size <= highest);
  if (!range) return undefined;
  const [, count] = range;
  return { limit: (size * how.percent) / 100 + how.counts * count, count };
}
