import { err, keptFor, ok, type Result } from "../../base/index.ts";
import { inWordsOfVersion2, type Harness } from "../../harness-model/index.ts";
import {
  appendEvent,
  contentHash,
  replayEvents,
  newRecord,
  type CodeStatus,
  type EnteredReading,
  type JobComplaint,
  type JobMachine,
  type JobRecord,
  type NewEvent,
  type Stamp,
  type Verdict,
} from "../../job-records/index.ts";
import { guardsOf } from "../../measurement-safety/index.ts";
import { FLOATING, OVER_RANGE, toleranceOf, toScale, UNIT_OF_METER } from "../belief/meter-scale.ts";
import { isMeterCheck, type Check } from "../checks/check.ts";
import { COSTS } from "../checks/cost-table.ts";
import { outcomesOf } from "../checks/inspection-outcomes.ts";
import { changeSetup } from "../checks/setups.ts";
import { describeCheck, recordCheck } from "./describe-check.ts";
import { suspects } from "./endings.ts";
import { stateOfJob, type JobState } from "./job-state.ts";

/** What is known when a job starts. */
export interface NewJob {
  /** Id of the job, unique where it will be stored. */
  readonly id: string;
  readonly stamp: Stamp;
  readonly complaint: JobComplaint;
  readonly codes?: readonly { readonly code: string; readonly status: CodeStatus }[];
  readonly symptoms?: readonly { readonly item: string; readonly is: "bad" | "good" }[];
  /** Adapters owned; all of the document where absent. */
  readonly adapters?: readonly string[];
}

/** Why a job or a reading was not taken. */
export type JobFault =
  | { readonly kind: "forbidden"; readonly reason: string }
  | { readonly kind: "unknown-check"; readonly key: string }
  | { readonly kind: "unknown-event"; readonly id: string }
  | { readonly kind: "wrong-reading"; readonly reason: string }
  | { readonly kind: "other-machine"; readonly reason: string };

const hashOf = keptFor((document: Harness["document"]) => contentHash(JSON.stringify(inWordsOfVersion2(document))));

/** The machine as a record names it. */
export function machineOf({ document, build }: Harness): JobMachine {
  const { title, machine, revision } = document.about;
  const id = { title, machine, contentHash: hashOf(document), build: { id: build.id, label: build.label } };
  return revision === undefined ? id : { ...id, revision };
}

/**
 * Starts a job.
 *
 * @param job Complaint, codes, functions, adapters.
 * @returns The job; a fault if its circuits include airbag or high-voltage lines, on which no test is permitted.
 * @example
 * ```ts
 * import { fitBuild, HarnessDocument } from "ohmward/harness-model";
 * import { nextCheck, startJob, takeReading } from "ohmward/diagnosis";
 * const stud = (id: string) => ({ id, label: "Post", role: "terminal", access: { minutes: 1 } });
 * const load = { id: "bulb", kind: "load", between: ["L+", "L-"], resistanceOhm: 6 };
 * const cells = { id: "cells", kind: "source", between: ["G+", "G-"], role: "battery", voltageVolt: 12.6, resistanceOhm: 0.005 };
 * const document = HarnessDocument.parse({
 *   format: "ohmward-harness", version: 3, about: { title: "Lamp", machine: "Lamp" },
 *   system: { nominalVolt: 12, wireStandard: "iec-60228-class-5", temperatureC: 20, supply: { positive: "G+", negative: "G-" } },
 *   options: [], builds: [{ id: "base", label: "Base", options: [] }],
 *   states: [
 *     { id: "ON", label: "Key on", conditions: ["key-on"] },
 *     { id: "OFF", label: "Battery disconnected", conditions: ["battery-disconnected"], settings: [{ of: "G.cells", is: "off" }] },
 *   ],
 *   zones: [], topologyNodes: [], segments: [], connectors: [], splices: [], nets: [], adapters: [], codes: [], cautions: [],
 *   components: [
 *     { id: "G", label: "Battery", kind: "battery", elements: [cells] },
 *     { id: "L", label: "Lamp", kind: "lamp", elements: [load] },
 *   ],
 *   terminalStuds: ["G+", "G-", "P", "L+", "L-"].map(stud),
 *   wires: [["W1", "G+", "P"], ["W2", "P", "L+"], ["W3", "L-", "G-"]].map(([id, from, to]) => ({
 *     id, ends: [from, to], crossSectionMm2: 1, lengthMm: 2000,
 *   })),
 * });
 * const harness = fitBuild(document, "base");
 * const stamp = { at: "2031-01-05T07:30:00Z", writer: "me" };
 * const complaint = { words: "lamp dark", conditions: {}, recentWork: [] };
 * const begun = harness && startJob(harness, { id: "J-1", stamp, complaint, symptoms: [{ item: "L", is: "bad" }] });
 * if (!begun?.ok) throw new Error("not begun");
 * const check = [...begun.value.model.checks.values()].find(({ key }) => key === "volts ON tip@P tip@G-");
 * const given = { kind: "value", text: "12.6 V", value: 12.6, unit: "V" } as const;
 * const read = takeReading(begun.value, { key: check?.key ?? "", given, stamp });
 * expect(read.ok && read.value.belief[0]).not.toBe(begun.value.belief[0]);
 * expect(nextCheck(begun.value).kind).toBe("check");
 * ```
 */
export function startJob(harness: Harness, job: NewJob): Result<JobState, JobFault> {
  const { stamp } = job;
  const events: readonly NewEvent[] = [
    { kind: "complaint", complaint: job.complaint },
    ...(job.codes ?? []).map((each): NewEvent => ({ kind: "code", ...each })),
    ...(job.symptoms ?? []).map((each): NewEvent => ({ kind: "symptom", ...each })),
    ...(job.adapters ? [{ kind: "equipment" as const, adapters: [...job.adapters] }] : []),
  ];
  const empty = newRecord(job.id, machineOf(harness), stamp.at);
  return resumeJob(
    harness,
    events.reduce((record, event) => appendEvent(record, event, stamp), empty),
  );
}

/**
 * Opens a job again from its record.
 *
 * @returns The job as it stood; a fault if the record is of another build or touches lines on which no test is permitted. A record made
 *   with other data of the same machine is taken: compare `machineOf(harness).contentHash` to tell the person.
 */
export function resumeJob(harness: Harness, record: JobRecord): Result<JobState, JobFault> {
  if (record.machine.build.id !== harness.build.id) {
    return err({
      kind: "other-machine",
      reason: `The job is about variant "${record.machine.build.id}", not "${harness.build.id}"`,
    });
  }
  const state = stateOfJob(harness, record);
  // Lines beside the complaint's own are left alone check by check.
  const [guard] = guardsOf(harness, { nodes: state.model.scope.nodes });
  if (guard) {
    const reason = `No test is permitted here: this is an airbag or high-voltage circuit. Follow the maker's procedure, with the licence it requires. This circuit counts as one because ${guard.because}.`;
    return err({ kind: "forbidden", reason });
  }
  return ok(state);
}

/** A reading for a job. */
interface NewReading {
  /** Key of the check, proposed or chosen. */
  readonly key: string;
  readonly given: EnteredReading;
  readonly stamp: Stamp;
}

/**
 * Takes a reading.
 *
 * @param reading The check and what was read.
 * @returns The job after it; a fault if there is no such check or the reading does not go with it.
 */
export function takeReading(state: JobState, { key, given, stamp }: NewReading): Result<JobState, JobFault> {
  const check = state.model.checks.get(key);
  if (!check) return err({ kind: "unknown-check", key });
  const fault = mismatch(check, given);
  if (fault !== undefined) return err({ kind: "wrong-reading", reason: fault });
  const { states } = state.harness.document;
  const byId = new Map(states.map((each): [string, (typeof states)[number]] => [each.id, each]));
  const { minutes } = changeSetup(state.setup, check.need, { byId, costs: COSTS });
  const recorded = recordCheck(describeCheck(state.harness, check), minutes + check.minutes);
  const event = { kind: "reading" as const, check: recorded, given, verdict: verdictOf(state, check, given) };
  const bare = stateOfJob(state.harness, appendEvent(state.record, { ...event, suspects: [] }, stamp));
  // The list as it stood after this reading is recorded with it, so that the record can be read without the program.
  const list = suspects(bare)
    .slice(0, 10)
    .map(({ group, label, share }) => ({ id: group < 0 ? "something else" : label, label, share: Math.min(1, share) }));
  // Nothing else depends on that list.
  const record = appendEvent(state.record, { ...event, suspects: list }, stamp);
  return ok({ ...bare, record, facts: replayEvents(record) });
}

function mismatch(check: Check, given: EnteredReading): string | undefined {
  if (given.kind === "outcome") {
    if (isMeterCheck(check)) return "This test needs a reading of the meter";
    return outcomesOf(check).some(({ id }) => id === given.outcome)
      ? undefined
      : `This test has no outcome "${given.outcome}"`;
  }
  if (given.kind === "unsure" || given.kind === "not-possible") return undefined;
  if (!isMeterCheck(check)) return "This test has no number";
  const unit = UNIT_OF_METER[check.kind];
  return given.kind === "value" && given.unit !== unit ? `This test is read in ${unit}` : undefined;
}

/** Whether a reading is within the limits of a machine without a fault. */
export function verdictOf({ model }: JobState, check: Check, given: EnteredReading): Verdict {
  const say = (isRight: boolean): Verdict => (isRight ? "pass" : "fail");
  if (given.kind === "unsure" || given.kind === "not-possible") return "inconclusive";
  if (given.kind === "outcome") {
    return isMeterCheck(check)
      ? "inconclusive"
      : say(outcomesOf(check).some(({ id, isNormal }) => isNormal && id === given.outcome));
  }
  if (!isMeterCheck(check)) return "inconclusive";
  const { normal } = model.readings(check, []);
  if (given.kind === "overload") return say(normal === OVER_RANGE);
  if (given.kind === "unstable") return say(normal === FLOATING);
  const unit = UNIT_OF_METER[check.kind];
  const point = toScale(given.value, unit);
  if (normal === FLOATING) return say(Math.abs(point) < 2);
  return say(Number.isFinite(normal) && Math.abs(point - normal) <= 2.5 * toleranceOf(normal, unit));
}

/** Undoes an earlier event: a reading, a trouble code, a changed starting probability. Undoing the undo restores it. */
export function undo(state: JobState, id: string, stamp: Stamp): Result<JobState, JobFault> {
  if (!state.record.events.some((event) => event.id === id)) return err({ kind: "unknown-event", id });
  return ok(stateOfJob(state.harness, appendEvent(state.record, { kind: "undo", of: id }, stamp)));
}

/** Corrects an earlier reading. */
export function editReading(
  state: JobState,
  id: string,
  given: EnteredReading,
  stamp: Stamp,
): Result<JobState, JobFault> {
  const event = state.record.events.find((each) => each.id === id);
  if (event?.kind !== "reading") return err({ kind: "unknown-event", id });
  const check = state.model.checks.get(event.check.key);
  const fault = check && mismatch(check, given);
  if (fault !== undefined) return err({ kind: "wrong-reading", reason: fault });
  const verdict = check ? verdictOf(state, check, given) : "inconclusive";
  return ok(stateOfJob(state.harness, appendEvent(state.record, { kind: "amend", of: id, given, verdict }, stamp)));
}

/** Adds anything else that happened: a trouble code read later, a changed starting probability, a cause, a repair, a verification, a note, the end. */
export function noteEvent(
  state: JobState,
  event: Exclude<NewEvent, { kind: "reading" | "undo" | "amend" }>,
  stamp: Stamp,
): JobState {
  return stateOfJob(state.harness, appendEvent(state.record, event, stamp));
}
