import type { Harness } from "ohmward/harness-model";
import { findProbePoints, type ProbeFindings, type ProbeOptions } from "ohmward/measurement-safety";
import { resolve } from "ohmward/connectivity";
import { stateOf } from "./made-up-machine.ts";

/** Asks where to put the meter for what a text names. */
export function ask(harness: Harness, what: string, state: string, options?: ProbeOptions): ProbeFindings {
  const found = resolve(harness, what);
  if (found.kind !== "one") throw new Error(`"${what}" is ${found.kind}`);
  return findProbePoints(harness, found.item, stateOf(harness, state), options);
}

/** Ids of the points of an answer, of one class if given. */
export function pointIds(findings: ProbeFindings, probeClass?: string): readonly string[] {
  return findings.points
    .filter((point) => probeClass === undefined || point.class === probeClass)
    .map((point) => point.id);
}

/** The rule by which an answer refuses a contact. */
export function ruleOf(findings: ProbeFindings, id: string): string | undefined {
  return findings.refused.find((refusal) => refusal.id === id)?.rule;
}
