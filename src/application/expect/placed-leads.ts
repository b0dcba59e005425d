import type { Probe } from "../../simulation/index.ts";
import type { JudgedLead } from "./judge-lead.ts";

/** Leads in their places. */
export interface PlacedLeads {
  readonly probe: Probe;
  readonly leads: readonly JudgedLead[];
  /** What was assumed to get there. */
  readonly notes: readonly string[];
}
