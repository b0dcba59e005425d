import type { JobView } from "../../application/index.ts";

/** How much a check tells, without bits. */
export function tellsWords(bits: number): string {
  if (bits >= 0.8) return "tells a lot";
  return bits >= 0.25 ? "tells something" : "tells little";
}

/** A sign for each verdict, so that it can be told without colour. */
export const VERDICT_SIGNS: Readonly<Record<NonNullable<JobView["show"]["log"][number]["verdict"]>, string>> = {
  "pass": "✓",
  "fail": "✕",
  "inconclusive": "–",
};
