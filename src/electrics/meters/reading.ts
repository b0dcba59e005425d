import type { QuestionProblem } from "../network/situation.ts";

/** What is measured, and where. Points are written as everywhere: `A1.X1:36`, `XE1e:1`, `G2-`, the ring `W06@GND-C1`. */
export type Probe =
  | { readonly kind: "volts"; readonly red: string; readonly black: string }
  /** Volts along a way while it carries its load. */
  | { readonly kind: "drop"; readonly red: string; readonly black: string }
  /** Ohms; what the leads have, and whether it was taken off the reading (it was, where nothing is said). */
  | { readonly kind: "ohms"; readonly red: string; readonly black: string; readonly leads?: Leads }
  /** Clamp around a wire, positive from its first end to its second. */
  | { readonly kind: "amps"; readonly wire: string }
  /** Volts across a lamp of so many watts (21 where nothing is said) held between two points. */
  | { readonly kind: "loaded"; readonly red: string; readonly black: string; readonly lampWatt?: number }
  /** Share of the time the red point is high. */
  | { readonly kind: "duty"; readonly red: string; readonly black: string };

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
  | { readonly kind: "over-range"; readonly unit: ReadingUnit; readonly because: readonly Because[] }
  /** The measurement would mean nothing or do harm; `disconnect` names what has to be taken off first. */
  | { readonly kind: "refused"; readonly disconnect: readonly string[]; readonly because: readonly Because[] }
  | { readonly kind: "contradictory"; readonly sources: readonly string[] }
  | { readonly kind: "no-steady-state"; readonly unsettled: readonly string[] }
  | { readonly kind: "wrong-question"; readonly problems: readonly QuestionProblem[] };

/** What a meter says, and the states of the machine in which it says the same within the band. */
export type Reading = PlainReading & { readonly holdsIn: readonly string[] };
