import type { JobView } from "../../application/index.ts";
import type { JobOutcome } from "../../job-records/index.ts";

/** How well a check separates the possible causes, without bits. */
export function tellsWords(bits: number): string {
  if (bits >= 0.8) return "separates well";
  return bits >= 0.25 ? "separates partly" : "separates hardly";
}

/** The status of a diagnostic trouble code, in words. */
export const CODE_STATUS_NAMES = { active: "active", stored: "previously active", absent: "not present" } as const;

/** Whether a function or a part fails, in words. */
export const SYMPTOM_NAMES = { bad: "fails", good: "works" } as const;

/** How a job ended, in words. */
export const OUTCOME_NAMES: Readonly<Record<JobOutcome, string>> = {
  mended: "repaired",
  "no-fault-found": "no fault found",
  referred: "referred",
};

/** A sign for each verdict, so that it can be told without colour. */
export const VERDICT_SIGNS: Readonly<Record<NonNullable<JobView["show"]["log"][number]["verdict"]>, string>> = {
  "pass": "✓",
  "fail": "✕",
  "inconclusive": "–",
};
