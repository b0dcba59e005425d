import type { Meter } from "../../measurement-safety/index.ts";

/** What the leads are held with, and what is open. */
export interface LeadSetup {
  readonly meter: Meter;
  /** Connectors that are unplugged. */
  readonly opened: ReadonlySet<string>;
}
