import type { JobView } from "../../application/index.ts";

/** How well a check separates the possible causes, without bits. */
export function tellsWords(bits: number): string {
  if (bits >= 0.8) return "separates well";
  return bits >= 0.25 ? "separates partly" : "separates hardly";
}

/** A sign for each verdict, so that it can be told without colour. */
export const VERDICT_SIGNS: Readonly<Record<NonNullable<JobView["show"]["log"][number]["verdict"]>, string>> = {
  pass: "✓",
  fail: "✕",
  inconclusive: "–",
};
