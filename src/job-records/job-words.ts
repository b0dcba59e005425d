import type { CodeStatus } from "./replay-events.ts";
import type { JobComplaint, JobOutcome, Verdict } from "./schema.ts";

/** What a person reads for each verdict. */
export const VERDICT_NAMES: Readonly<Record<Verdict, string>> = {
  pass: "pass",
  fail: "fail",
  inconclusive: "inconclusive",
};

/** How a job ended, in words. */
export const OUTCOME_NAMES: Readonly<Record<JobOutcome, string>> = {
  repaired: "repaired",
  "no-fault-found": "no fault found",
  referred: "referred",
};

/** The status of a diagnostic trouble code, in words. Source: SAE J1939-73. */
export const STATUS_NAMES: Readonly<Record<CodeStatus, string>> = {
  active: "active",
  "previously-active": "previously active",
  "not-present": "not present",
};

/** How often the complaint shows, in words. */
export const PRESENCE_NAMES: Readonly<Record<NonNullable<JobComplaint["conditions"]["presence"]>, string>> = {
  always: "always",
  intermittent: "intermittent",
  once: "occurred once",
};

/** Whether an item does its work, in words. */
export const SYMPTOM_NAMES: Readonly<Record<"bad" | "good", string>> = { bad: "fails", good: "works" };

/** The outcomes of checks without a meter and of trials, in words. */
export const INSPECTION_OUTCOME_NAMES = {
  sound: "No damage found",
  unmated: "The connector was not mated",
  damage: "Damage, corrosion, water, or an item out of place",
  steady: "The reading and the function stay the same",
  moves: "The reading or the function changes during movement",
  grips: "You feel resistance. The terminal does not move",
  loose: "No resistance, or the terminal moves",
  stays: "The complaint is still present",
  gone: "The complaint is gone",
  works: "It works",
  fails: "It fails",
} as const;
