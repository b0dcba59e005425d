import type { ProbePoint } from "../../measurement-safety/index.ts";
import type { Item } from "../../connectivity/index.ts";

/** A place that has to be reached before a check, with the time that takes the first time. */
export interface CheckPlace {
  /** The same for the same place: a connector, an adapter, a zone. */
  readonly key: string;
  readonly minutes: number;
}

/** What has to be ready for a check. */
export interface CheckNeed extends TestSetup {
  readonly places: readonly CheckPlace[];
}

/** A check with a meter between two points. */
export interface MeterCheck {
  readonly kind: "dc-voltage" | "resistance";
  readonly key: string;
  readonly need: CheckNeed;
  readonly red: ProbePoint;
  readonly black: ProbePoint;
  /** Minutes for the reading itself. */
  readonly minutes: number;
}

/** A check without a meter: look, move, pull, exchange. */
export interface InspectionCheck {
  readonly kind: "visual-inspection" | "wiggle" | "terminal-drag" | "substitute";
  readonly key: string;
  readonly need: CheckNeed;
  /** What is looked at, moved, pulled or exchanged. */
  readonly at: Item;
  readonly minutes: number;
}

/** Any check. */
export type Check = MeterCheck | InspectionCheck;

/** An outcome of a check without a meter. */
export interface InspectionOutcome {
  readonly id: string;
  readonly label: string;
  /** Whether a healthy machine gives it. */
  readonly isHealthy: boolean;
}

/** Whether a check takes a reading with a meter. */
export function isMeterCheck(check: Check): check is MeterCheck {
  return check.kind === "dc-voltage" || check.kind === "resistance";
}

/** Where the machine stands while readings are taken. */
export interface TestSetup {
  readonly state: string;
  /** Connectors that are unplugged, in natural order. */
  readonly unplugged: readonly string[];
}
