import type { QuantityScale } from "../../base/index.ts";
import type {
  ExpectedOutcome,
  DescribedCheck,
  Proof,
  SuspectShare,
  Suggestion,
  WorkSetup,
} from "../../diagnosis/index.ts";

/** Where one lead goes. */
export interface ShownLead {
  readonly lead: "red" | "black";
  /** The point, as an address. */
  readonly at: string;
  readonly how: string;
  /** The adapter that is fitted for it, in words. */
  readonly adapter?: string;
}

/** What the page needs to take what a check gave. */
export interface ShownEntry {
  /** What a check without a meter can show. */
  readonly choices: readonly { readonly id: string; readonly label: string; readonly isHealthy: boolean }[];
  /** What can be expected of the reading of a check with a meter. */
  readonly scale?: QuantityScale;
}

/** A check with all that the page shows of it. */
export interface ShownCheck extends ShownEntry {
  readonly described: DescribedCheck;
  readonly leads: readonly ShownLead[];
  /** Minutes from where the work stands; absent for a reading that is taken again. */
  readonly minutes?: number;
  readonly why: readonly string[];
  readonly outcomes: readonly ExpectedOutcome[];
  /** Connectors to be plugged in again first, and to be unplugged. */
  readonly plugIn: readonly string[];
  readonly unplug: readonly string[];
  readonly isNewState: boolean;
}

/** One way in which a suspect fails, with the reasons for its weight. */
export interface ShownWay {
  readonly label: string;
  readonly weight: number;
  readonly factors: readonly { readonly factor: number; readonly why: string }[];
}

/** A suspect: a repair, with its share now and beforehand. */
export interface ShownSuspect extends SuspectShare {
  readonly before: number;
  readonly ways: readonly ShownWay[];
  /** Wires, contacts and parts that are meant. */
  readonly items: readonly string[];
}

/** How a job stands. */
export interface JobShown {
  readonly suggestion: Suggestion;
  /** The check to be done now: the proposed one, one to repeat, or one the person chose. */
  readonly check: ShownCheck | undefined;
  readonly suspects: readonly ShownSuspect[];
  /** What would prove a repair. */
  readonly proofs: readonly Proof[];
  /** Planned minutes of what was done. */
  readonly minutes: number;
  readonly setup: WorkSetup;
  /** Names of the complaint that lead nowhere. */
  readonly unknown: readonly string[];
  /** What is needed to correct readings and to take them again, by the key of the check. */
  readonly entries: ReadonlyMap<string, ShownEntry>;
}

/** What follows from a complaint before any check. */
export interface PreviewShown {
  readonly suspects: readonly ShownSuspect[];
  readonly unknown: readonly string[];
  readonly checkCount: number;
  /** Where the weights come from. */
  readonly origin: string;
}
