import type { Fault } from "../faults/fault.ts";

/** How a switch, contact, driver, source or load stands; a share of the time is a duty in percent. */
export type Stand = "open" | "closed" | "off" | "on" | { readonly dutyPercent: number };

/** One thing set by hand, in place of what the state says. */
export interface StandOf {
  /** Element key, such as `S1.run`. */
  readonly of: string;
  readonly is: Stand;
}

/** Everything that decides what a meter shows, apart from the machine itself. The same situation always gives the same answer. */
export interface Situation {
  /** Id of a machine state. Without one everything is at rest: switches as they rest, drivers off, the battery connected. */
  readonly state?: string;
  readonly settings?: readonly StandOf[];
  readonly faults?: readonly Fault[];
  /** Connectors, or halves of them, that are unplugged: both halves stay where they are. */
  readonly unplugged?: readonly string[];
  /** Test adapters that are fitted. One that sits in line adds a second contact in each cavity it carries. */
  readonly adapters?: readonly string[];
  /** Quantities of the outside world in place of those of the state: temperature, pressure... */
  readonly quantities?: readonly { readonly name: string; readonly value: number }[];
  /** Temperature of wires and windings in degrees C, in place of that of the document. */
  readonly temperatureC?: number;
}

/** Something in the question that the machine does not have. */
export interface QuestionProblem {
  readonly code:
    | "unknown-state"
    | "unknown-target"
    | "not-fitted"
    | "wrong-target"
    | "unknown-connector"
    | "unknown-adapter"
    | "unknown-point"
    | "no-reference"
    | "out-of-range";
  /** What was asked for, as written. */
  readonly of: string;
  readonly text: string;
}
