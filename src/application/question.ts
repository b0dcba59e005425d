import type { FindGroup } from "./find-groups.ts";
import type { Mark, Through } from "../connectivity/index.ts";

/** One thing asked about, as typed, with its mark. */
export interface MarkedText {
  readonly text: string;
  readonly mark: Mark;
}

/** What is measured: volts, ohms, volts lost along a loaded way, amperes by clamp, volts across a test lamp, share of the time. */
export type ExpectMeter = "dc-voltage" | "resistance" | "voltage-drop" | "dc-current" | "test-lamp" | "duty-cycle";

/** Every {@link ExpectMeter}. */
export const EXPECT_METERS: readonly ExpectMeter[] = [
  "dc-voltage",
  "resistance",
  "voltage-drop",
  "dc-current",
  "test-lamp",
  "duty-cycle",
];

/** What differs from the machine as the document and its state have it, as texts. An empty list is the same as none. */
export interface Conditions {
  /** Faults in the text form of `parseFault`: `open:W78`, `high-resistance:XE1:1=0.25`. */
  readonly faults?: readonly string[];
  /** Connectors that are unplugged. */
  readonly unplugged?: readonly string[];
  /** Test adapters that are fitted. */
  readonly adapters?: readonly string[];
  /** `S1.run=closed`, `A1.drv-fan=40%`, or a quantity of the outside world: `coolant-temperature=80`. */
  readonly settings?: readonly string[];
}

/** Expected reading between two points. */
export interface ExpectQuestion extends Conditions {
  readonly kind: "expected";
  /** Where the red lead goes; for amperes the wire the clamp goes round. */
  readonly red: string;
  /** Where the black lead goes; the negative supply terminal when left out, except for a drop. None for amperes. */
  readonly black?: string;
  /** Volts when left out. */
  readonly meter?: ExpectMeter;
  /** A figure is wanted also where a lead may not be put: to understand the circuit, never to measure there. */
  readonly calculateOnly?: boolean;
}

/** What a voltmeter should say at all points of the circuits of a thing. */
export interface TableQuestion extends Conditions {
  readonly kind: "table";
  readonly item: string;
  /** Where the black lead stays; the negative supply terminal when left out. */
  readonly black?: string;
}

/** A question as a person puts it: addresses are texts still. The same on the command line, on screen and in a link. */
export type Question =
  | { readonly kind: "circuit"; readonly point: string }
  | { readonly kind: "path"; readonly from: string; readonly to: string; readonly through?: Through }
  | { readonly kind: "common"; readonly items: readonly MarkedText[] }
  | { readonly kind: "effect"; readonly item: string }
  | { readonly kind: "test-points"; readonly item: string }
  /** `group` asks for the whole of one group of hits. */
  | { readonly kind: "find"; readonly text: string; readonly group?: FindGroup }
  | ExpectQuestion
  | TableQuestion;

/** Where the question is asked: which build, and in which state of the machine. */
export interface Setting {
  readonly build: string;
  /** State id; absent means the first state of the document, which by convention is key off. */
  readonly state?: string;
}

/** A {@link Setting} in which the build may be left open, as on the command line; see `chooseBuild` for what happens then. */
export interface OpenSetting {
  readonly build?: string;
  readonly state?: string;
}
