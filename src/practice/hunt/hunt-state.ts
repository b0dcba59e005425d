import type { WorkSetup } from "../../diagnosis/index.ts";
import type { Probe } from "../../electrics/index.ts";
import type { Harness } from "../../model/index.ts";
import type { HuntEvent } from "../../records/index.ts";
import type { Item } from "../../trace/index.ts";
import type { HuntTask } from "./hunt-task.ts";
import type { Signs } from "./signs.ts";

/** What the meter shows. */
export interface Display {
  /** As on the display: digits and sign, `OL`, or what it wanders through. */
  readonly text: string;
  readonly unit: "V" | "Ω" | "A";
  /** The value as displayed; absent for `OL` and for a display that wanders. */
  readonly value?: number;
  readonly is: "value" | "over-range" | "wanders";
  /** What a display that wanders showed, one after the other. */
  readonly samples?: readonly string[];
  /** What a person at the meter may notice beside the figure. */
  readonly notes: readonly string[];
}

/** What came of an event. */
export type Seen =
  | { readonly kind: "done"; readonly text: string }
  /** It cannot be done as things stand; nothing was done and no time is lost. */
  | { readonly kind: "not-ready"; readonly text: string }
  /** Against the rules of safe work: it was not done, and it counts. */
  | {
      readonly kind: "stopped";
      readonly rule: string;
      readonly reason: string;
      readonly source: string;
      /** It would damage a terminal, seal or wire. The trainee may insist; a danger to people cannot be insisted on. */
      readonly mayInsist: boolean;
    }
  | { readonly kind: "reading"; readonly display: Display; readonly damaged?: string }
  | { readonly kind: "outcome"; readonly outcome: string; readonly text: string; readonly isHealthy: boolean }
  | { readonly kind: "hint"; readonly level: 1 | 2 | 3; readonly text: string; readonly points: number }
  | { readonly kind: "tried"; readonly signs: Signs; readonly words: readonly string[] }
  | { readonly kind: "named"; readonly text: string };

/** One event with what came of it. */
export interface HuntStep {
  readonly event: HuntEvent;
  readonly seen: Seen;
  /** Minutes it took. */
  readonly minutes: number;
  /** What was suspected when it was done. */
  readonly suspects: readonly Item[] | undefined;
  /** Where the machine stood when it was done. */
  readonly standing: { readonly state: string; readonly unplugged: readonly string[] };
  /** What the meter was asked, for a reading. */
  readonly probe?: Probe;
  /** The meter had been proven on a live point. */
  readonly isProven: boolean;
}

/** Damage done in the hunt; a terminal spread by a tip makes contact now and then only. */
export interface Damage {
  /** The contact or wire. */
  readonly item: Item;
  readonly how: string;
  readonly isMended: boolean;
}

/** Where a hunt stands. It follows from the task and the events. */
export interface HuntState {
  readonly harness: Harness;
  readonly task: HuntTask;
  readonly setup: WorkSetup;
  /** Adapters that are fitted, as `adapter at connector`. */
  readonly fitted: readonly string[];
  readonly areLeadsZeroed: boolean;
  /** The meter was held to a live point since the state last changed. */
  readonly isMeterProven: boolean;
  readonly minutes: number;
  readonly steps: readonly HuntStep[];
  readonly suspects: readonly Item[] | undefined;
  /** A hypothesis was stated since the last action. */
  readonly isHypothesisFresh: boolean;
  readonly damage: readonly Damage[];
  /** Whether the hidden fault has been mended. */
  readonly isMended: boolean;
  /** Repair groups done that mended nothing. */
  readonly needless: readonly string[];
  readonly hintPoints: number;
  readonly isEnded: boolean;
}
