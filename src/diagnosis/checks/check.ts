import type { ProbePoint } from "../../measurement-safety/index.ts";
import type { Item } from "../../connectivity/index.ts";

/** A location to which access is needed before a check, with the time that takes the first time. */
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

/** A check without a meter: visual inspection, wiggle test, terminal drag test, substitution. */
export interface InspectionCheck {
  readonly kind: "visual-inspection" | "wiggle" | "terminal-drag" | "substitute";
  readonly key: string;
  readonly need: CheckNeed;
  /** The item that is inspected, moved, pulled or substituted. */
  readonly at: Item;
  readonly minutes: number;
}

/** Any check. */
export type Check = MeterCheck | InspectionCheck;

/** An outcome of a check without a meter. */
export interface InspectionOutcome {
  readonly id: string;
  readonly label: string;
  /** Whether a machine without a fault gives it. */
  readonly isNormal: boolean;
}

/** Whether a check takes a reading with a meter. */
export function isMeterCheck(check: Check): check is MeterCheck {
  return check.kind === "dc-voltage" || check.kind === "resistance";
}

/** Where the machine stands while readings are taken. */
export interface TestSetup {
  readonly state: string;
  /** Connectors that are disconnected, in natural order. */
  readonly unplugged: readonly string[];
}
