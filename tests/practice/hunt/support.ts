import { makeHunt, startHunt, stepHunt, type HuntState, type ReadyHunt, type Seen } from "ohmward/practice";
import type { HuntEvent } from "ohmward/records";
import { demoDocument } from "../support/machines.ts";

/** A hunt for a fault written by a trainer. */
export function written(
  fault: string,
  options: { build?: string; comesAndGoes?: boolean; asks?: boolean } = {},
): ReadyHunt {
  const { build = "base", comesAndGoes = false, asks = false } = options;
  const made = makeHunt(demoDocument, { kind: "written", title: fault, build, fault, comesAndGoes, level: 1 }, asks);
  if (!made.ok) throw new Error(made.error.message);
  return made.value;
}

/** The hunt after some events. */
export function after({ harness, task }: ReadyHunt, events: readonly HuntEvent[]): HuntState {
  return events.reduce(stepHunt, startHunt(harness, task));
}

/** What came of the last event. */
export function lastSeen(hunt: HuntState): Seen {
  const seen = hunt.steps.at(-1)?.seen;
  if (!seen) throw new Error("Nothing was done");
  return seen;
}

/** Key on, engine off. */
export const KEY_ON: HuntEvent = { kind: "state", to: "KOEO" };

/** Volts between two studs. */
export function volts(red: string, black: string, range?: number): HuntEvent {
  return {
    kind: "measure",
    meter: "volts",
    red: { point: red, method: "tip" },
    black: { point: black, method: "tip" },
    ...(range === undefined ? {} : { range }),
  };
}
