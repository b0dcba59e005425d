import { err, ok, unreachable, type Result } from "../../base/index.ts";
import {
  editReading,
  machineOf as machineNamed,
  nextCheck,
  noteEvent,
  resumeJob,
  suspects,
  takeReading,
  undo,
  type JobState,
} from "../../diagnosis/index.ts";
import {
  appendEvent,
  describeEntered,
  INSPECTION_OUTCOME_NAMES,
  OUTCOME_NAMES,
  replayEvents,
  VERDICT_NAMES,
  type EnteredReading,
  type JobEvent,
  type JobOutcome,
  type JobRecord,
  type Stamp,
} from "../../job-records/index.ts";
import type { Machine } from "../open-machine.ts";
import { findCheck, type PermittedCheck } from "./check-codes.ts";
import type { JobNextAnswer, JobProblem, JobRefusal } from "./job-answers.ts";
import { numberedVerifications, verificationFacts, type NumberedVerification } from "./job-facts.ts";
import { EVENT_NAMES } from "./event-names.ts";
import { jobStage } from "./job-stage.ts";
import { harnessOf, openJob, refusalOf, resumed, type OpenJob } from "./open-job.ts";
import { MOST_TEXT, readFacts, SHORTER, REPAIRED_IN_VAIN, type FactsRequest, type ReadFacts } from "./read-facts.ts";
import { readValue, unproven, type ValueRequest } from "./read-value.ts";
import { refuse } from "./refuse.ts";
import { weightProblems } from "./weight-problems.ts";

/** A repair as it is recorded. */
export interface RepairRequest {
  /** What was done. */
  readonly text: string;
  /** The true cause, the layer below what failed. */
  readonly cause?: string;
  /** Name of the possible cause; the most probable one where absent. */
  readonly suspect?: string;
  readonly parts?: readonly string[];
  readonly minutes?: number;
  /** The complaint is still present: what was repaired becomes improbable, and testing continues. */
  readonly isInVain?: boolean;
}

/** One step of a job, as plain data: screen and command line send the same. */
export type JobStep =
  /** A reading of a check: its short name or key, or the one that is asked for. */
  | ({ readonly kind: "reading"; readonly check?: string } & ValueRequest)
  /** The test is not possible, so that another one comes next. */
  | { readonly kind: "skip"; readonly check?: string; readonly reason?: string }
  /** An earlier reading corrected, by the id or number of its event. */
  | ({ readonly kind: "correct"; readonly event: string } & ValueRequest)
  /** An event undone, the last step where none is named; undoing the undo restores it. */
  | { readonly kind: "undo"; readonly event?: string }
  /** What was learned later: trouble codes, symptoms, conditions, starting probabilities, adapters, notes. */
  | ({ readonly kind: "add" } & FactsRequest)
  | ({ readonly kind: "repair" } & RepairRequest)
  /** The result of a verification of the repair: a reading taken again, or a trial of the function. */
  | ({ readonly kind: "proof"; readonly number: number } & ValueRequest)
  /** Closes the job; `notChecked` is in words. Verifications that were not done, or failed, are recorded with it. */
  | { readonly kind: "close"; readonly outcome: JobOutcome; readonly notChecked?: string }
  /** Goes on with other data of the same machine than the job was opened with. */
  | { readonly kind: "adopt" };

type StepOf<Kind extends JobStep["kind"]> = Extract<JobStep, { readonly kind: Kind }>;
type Permitted<Value> = Result<Value, JobRefusal>;
type Taken = Permitted<StepTaken>;

/** A record after a step, with what was recorded. */
export interface StepTaken {
  readonly record: JobRecord;
  /** The job after it; why not, where it still leads to circuits on which no test is permitted. */
  readonly opened: Permitted<OpenJob>;
  readonly written: NonNullable<JobNextAnswer["written"]>;
}

/**
 * Takes a step of a job.
 *
 * @param machine The machine.
 * @param record The record of the job.
 * @param step The step.
 * @param stamp Who writes and when.
 * @returns The record after it; or why the step was not taken. Nothing else is recorded.
 */
export function takeStep(machine: Machine, record: JobRecord, step: JobStep, stamp: Stamp): Taken {
  if (step.kind === "adopt") return adoptData(machine, record, stamp);
  const job = openJob(machine, record);
  if (job.ok) return stepOfJob(job.value, step, stamp);
  // A job that was led to circuits on which no test is permitted can still be led back.
  if (step.kind === "undo" && job.error.reason === "forbidden") return undoUnopened(machine, record, step, stamp);
  return job;
}

function stepOfJob(job: OpenJob, step: Exclude<JobStep, StepOf<"adopt">>, stamp: Stamp): Taken {
  if (step.kind === "undo") return undoStep(job, step, stamp);
  if (jobStage(job.state) === "closed")
    return refuse("out-of-turn", 'The job is closed. To open it again: "ohmward job undo".');
  switch (step.kind) {
    case "reading":
      return giveReading(job, step, stamp);
    case "skip":
      return skipCheck(job, step, stamp);
    case "correct":
      return correctReading(job, step, stamp);
    case "add":
      return addFacts(job, step, stamp);
    case "repair":
      return repair(job, step, stamp);
    case "proof":
      return prove(job, step, stamp);
    case "close":
      return close(job, step, stamp);
    default:
      return unreachable(step);
  }
}

/** The events that are new in the record are what was recorded. */
function taken(before: OpenJob, state: JobState, words: Omit<StepTaken["written"], "events">): Taken {
  const events = state.record.events.slice(before.state.record.events.length).map(({ id }) => id);
  return ok({ record: state.record, opened: ok({ ...before, state }), written: { events, ...words } });
}

function giveReading(job: OpenJob, step: StepOf<"reading">, stamp: Stamp): Taken {
  const check = checkFor(job, step.check);
  if (!check.ok) return check;
  const given = readValue(job.state, check.value, step);
  if (!given.ok) return refuse("wrong-input", "The reading was not recorded.", [given.error]);
  return unproven(check.value, step, given.value) ?? takeEntered(job, check.value, { given: given.value, stamp });
}

function skipCheck(job: OpenJob, step: StepOf<"skip">, stamp: Stamp): Taken {
  const check = checkFor(job, step.check);
  if (!check.ok) return check;
  const reason = step.reason?.trim();
  if (reason !== undefined && reason.length > 600) {
    const problem = { at: "reason", message: "The reason is longer than 600 characters.", hint: SHORTER };
    return refuse("wrong-input", "Nothing was recorded.", [problem]);
  }
  return takeEntered(job, check.value, { given: { kind: "not-possible", ...(reason ? { reason } : {}) }, stamp });
}

interface EnteredAt {
  readonly given: EnteredReading;
  readonly stamp: Stamp;
}

function takeEntered(job: OpenJob, check: PermittedCheck, { given, stamp }: EnteredAt): Taken {
  const after = takeReading(job.state, { key: check.key, given, stamp });
  if (!after.ok) return err(refusalOf(after.error));
  const event = after.value.record.events.at(-1);
  if (event?.kind !== "reading") throw new RangeError("Cannot tell what was taken: the last event is no reading");
  const { verdict } = event;
  const text = `Recorded: ${event.check.point}: ${describeEntered(given)}; expected: ${event.check.expected}; ${VERDICT_NAMES[verdict]}.`;
  return taken(job, after.value, { text, verdict });
}

/** The check that is named, or the one that is asked for. */
function checkFor({ state }: OpenJob, named: string | undefined): Permitted<PermittedCheck> {
  if (named !== undefined) return findCheck(state.model.checks, named);
  if (jobStage(state) === "proving") {
    return refuse(
      "out-of-turn",
      'A repair is recorded, so its verification comes next: "ohmward job verify". To continue testing, name a test (--check).',
    );
  }
  const next = nextCheck(state);
  const check = "check" in next ? state.model.checks.get(next.check.key) : undefined;
  if (check) return ok(check);
  return refuse(
    "out-of-turn",
    'No test comes next ("ohmward job next" shows what does). To record a test, name it (--check).',
  );
}

function correctReading(job: OpenJob, step: StepOf<"correct">, stamp: Stamp): Taken {
  const { state } = job;
  const found = findEvent(state.record, step.event);
  if (!found.ok) return found;
  if (found.value.kind !== "reading") {
    return refuse("wrong-input", `${found.value.id} is not a reading and cannot be corrected. Undo it.`);
  }
  const check = state.model.checks.get(found.value.check.key);
  if (!check) return refuse("wrong-input", `The test of ${found.value.id} is no longer permitted in this job.`);
  const given = readValue(state, check, step);
  if (!given.ok) return refuse("wrong-input", "The reading was not corrected.", [given.error]);
  const edited = editReading(state, found.value.id, given.value, stamp);
  if (!edited.ok) return err(refusalOf(edited.error));
  const text = `Corrected: ${found.value.check.point}: ${describeEntered(given.value)}, was ${describeEntered(found.value.given)}.`;
  return taken(job, edited.value, { text });
}

/** Finds an event by its id, or by the number before the point where only one event has it. */
function findEvent({ events }: JobRecord, text: string): Permitted<JobEvent> {
  const asked = text.trim();
  const exact = events.find(({ id }) => id === asked);
  if (exact) return ok(exact);
  const hits = events.filter(({ id }) => id.split(".")[0] === asked);
  const [only, second] = hits;
  if (only && !second) return ok(only);
  const message = second
    ? `"${asked}" fits ${hits.map(({ id }) => id).join(" and ")}.`
    : `The job has no event "${asked}".`;
  const hint = 'List the events with "ohmward job show".';
  return refuse("wrong-input", "Nothing was changed.", [{ at: "event", message, hint }]);
}

/** What is undone without being named; complaint, trouble codes and symptoms are named. */
const STEPS: ReadonlySet<JobEvent["kind"]> = new Set([
  "reading",
  "amend",
  "prior",
  "cause",
  "repair",
  "proof",
  "note",
  "closed",
]);
/** What may lead a job to circuits on which no test is permitted. */
const LEADS: ReadonlySet<JobEvent["kind"]> = new Set(["code", "symptom"]);

function undoStep(job: OpenJob, { event }: StepOf<"undo">, stamp: Stamp): Taken {
  const target = eventToUndo(job.state.record, event, STEPS);
  if (!target.ok) return target;
  const after = undo(job.state, target.value.id, stamp);
  if (!after.ok) return err(refusalOf(after.error));
  // To restore a code or a function may lead to circuits on which no test is permitted.
  const allowed = target.value.kind === "undo" ? resumeJob(after.value.harness, after.value.record) : after;
  return allowed.ok ? taken(job, after.value, { text: undoneText(target.value) }) : err(refusalOf(allowed.error));
}

function undoUnopened(machine: Machine, record: JobRecord, { event }: StepOf<"undo">, stamp: Stamp): Taken {
  const target = eventToUndo(record, event, LEADS);
  if (!target.ok) return target;
  const after = appendEvent(record, { kind: "undo", of: target.value.id }, stamp);
  const events = after.events.slice(-1).map(({ id }) => id);
  return ok({ record: after, opened: resumed(machine, after), written: { events, text: undoneText(target.value) } });
}

function eventToUndo(
  record: JobRecord,
  named: string | undefined,
  kinds: ReadonlySet<JobEvent["kind"]>,
): Permitted<JobEvent> {
  const { undone } = replayEvents(record);
  if (named !== undefined) {
    const found = findEvent(record, named);
    return found.ok && undone.has(found.value.id)
      ? refuse("out-of-turn", `${found.value.id} is undone already.`)
      : found;
  }
  const last = record.events.findLast(({ id, kind }) => kinds.has(kind) && !undone.has(id));
  if (last) return ok(last);
  return refuse(
    "out-of-turn",
    "There is no step left to undo. To undo a DTC, a symptom or the complaint, give its event number.",
  );
}

function undoneText(event: JobEvent): string {
  return `Undone: ${event.id}, ${nameOf(event)}.`;
}

function nameOf(event: JobEvent): string {
  if (event.kind === "reading" || event.kind === "proof") return `${EVENT_NAMES[event.kind]} of ${event.check.point}`;
  return "of" in event && event.kind !== "prior"
    ? `${EVENT_NAMES[event.kind]} of ${event.of}`
    : EVENT_NAMES[event.kind];
}

function addFacts(job: OpenJob, step: StepOf<"add">, stamp: Stamp): Taken {
  const { state } = job;
  const read = readFacts(state.harness, step, state.facts.complaint);
  if (!read.ok) return refuse("wrong-input", "Nothing was added.", read.error);
  const before = withFacts(state, read.value, stamp);
  const unknown = weightProblems(before, read.value.weights);
  if (unknown.length > 0) return refuse("wrong-input", "Nothing was added.", unknown);
  const after = weigh(before, read.value.weights, stamp);
  const count = after.record.events.length - state.record.events.length;
  if (count === 0)
    return refuse("wrong-input", 'There is nothing to add. "ohmward job add --help" lists what you can add.');
  // A trouble code or a symptom may lead to circuits on which no test is permitted.
  const allowed = resumeJob(state.harness, after.record);
  if (!allowed.ok) return err(refusalOf(allowed.error));
  return taken(job, after, {
    text: `Recorded: ${count === 1 ? "1 more event" : `${count} more events`}.`,
  });
}

function withFacts(state: JobState, facts: ReadFacts, stamp: Stamp): JobState {
  const { complaint, hasComplaint, codes, symptoms, adapters, notes } = facts;
  const events = [
    ...(hasComplaint ? [{ kind: "complaint" as const, complaint }] : []),
    ...codes.map((each) => ({ kind: "code" as const, ...each })),
    ...symptoms.map((each) => ({ kind: "symptom" as const, ...each })),
    ...(adapters ? [{ kind: "equipment" as const, adapters: [...adapters] }] : []),
    ...notes.map((text) => ({ kind: "note" as const, text })),
  ];
  return events.reduce((before, event) => noteEvent(before, event, stamp), state);
}

/**
 * Records changes to starting probabilities. The last change of a name counts: earlier ones are undone, and a factor of 1 changes nothing.
 *
 * @param state The job.
 * @param weights The changes.
 * @param stamp Who writes and when.
 */
export function weigh(state: JobState, weights: ReadFacts["weights"], stamp: Stamp): JobState {
  return weights.reduce((before, weight) => {
    const earlier = before.facts.priors.filter(({ of }) => of === weight.of);
    const cleared = earlier.reduce<JobState>((each, { id }) => {
      const undone = undo(each, id, stamp);
      return undone.ok ? undone.value : each;
    }, before);
    return weight.factor === 1 ? cleared : noteEvent(cleared, { kind: "prior", ...weight }, stamp);
  }, state);
}

function repair(job: OpenJob, step: StepOf<"repair">, stamp: Stamp): Taken {
  const { state } = job;
  const { text, cause, parts = [], minutes, isInVain = false } = step;
  const names = suspects(state).map(({ label }) => label);
  const problems = repairProblems(step, names);
  if (problems.length > 0) return refuse("wrong-input", "The repair was not recorded.", problems);
  const suspect = step.suspect ?? names[0] ?? "something else";
  const named = names.find((each) => each.toLowerCase() === suspect.trim().toLowerCase()) ?? suspect;
  const known = cause === undefined ? state : noteEvent(state, { kind: "cause", suspect: named, text: cause }, stamp);
  const event = { kind: "repair" as const, text, parts: [...parts], ...(minutes === undefined ? {} : { minutes }) };
  const repaired = noteEvent(known, event, stamp);
  const after = isInVain ? weigh(repaired, [{ of: named, ...REPAIRED_IN_VAIN }], stamp) : repaired;
  return taken(job, after, { text: `Recorded: repair of ${named}: ${text}` });
}

function repairProblems(
  { text, cause, parts = [], minutes, suspect }: RepairRequest,
  names: readonly string[],
): readonly JobProblem[] {
  const hint = SHORTER;
  const few = names.slice(0, 5).map((each) => `"${each}"`);
  const isKnown = suspect === undefined || names.some((each) => each.toLowerCase() === suspect.trim().toLowerCase());
  const tooLong = (at: string, length = 0): readonly JobProblem[] =>
    length <= MOST_TEXT ? [] : [{ at, message: `The text is longer than ${MOST_TEXT} characters.`, hint }];
  const problem = (is: boolean, at: string, message: string, then: string): readonly JobProblem[] =>
    is ? [{ at, message, hint: then }] : [];
  return [
    ...problem(text.trim() === "", "repair", "The work done is missing.", "Describe it in a sentence."),
    ...tooLong("repair", text.length),
    ...tooLong("--cause", cause?.length),
    ...problem(
      parts.length > 50 || parts.some((part) => part.length > 600),
      "--part",
      "More than 50 parts, or a part with more than 600 characters.",
      hint,
    ),
    ...problem(
      minutes !== undefined && (!Number.isFinite(minutes) || minutes < 0 || minutes > 100_000),
      "--minutes",
      "The time is not a number from 0 to 100 000 min.",
      "Give the minutes, such as 25.",
    ),
    ...problem(
      !isKnown,
      "--cause-item",
      `There is no possible cause "${suspect ?? ""}".`,
      `The possible causes are ${few.join(", ")} and others, or "something else".`,
    ),
  ];
}

type VerificationEvent = Extract<JobEvent, { kind: "proof" }>;
/** A verification as it is recorded, without its id and moment. */
type NewVerification = Pick<VerificationEvent, "check" | "given" | "verdict">;

function prove(job: OpenJob, step: StepOf<"proof">, stamp: Stamp): Taken {
  const { state } = job;
  if (jobStage(state) !== "proving") {
    return refuse("out-of-turn", 'Verification comes after a repair. Record the repair first: "ohmward job repair".');
  }
  const proofs = numberedVerifications(state);
  const wanted = proofs.find((each) => each.number === step.number);
  if (!wanted) {
    const message = `There is no verification ${step.number}; there are ${proofs.length}.`;
    const hint = 'List them with "ohmward job next".';
    return refuse("wrong-input", "The verification was not recorded.", [{ at: "proof", message, hint }]);
  }
  const made = makeVerification(state, wanted, step, stamp);
  if (!made.ok) return made;
  const { check, given, verdict } = made.value;
  const text = `Recorded: verification ${step.number}, ${check.point}: ${describeEntered(given)}; ${VERDICT_NAMES[verdict]}.`;
  return taken(job, noteEvent(state, { kind: "proof", ...made.value }, stamp), { text, verdict });
}

function makeVerification(
  state: JobState,
  wanted: NumberedVerification,
  typed: ValueRequest,
  stamp: Stamp,
): Permitted<NewVerification> {
  const check = state.model.checks.get(wanted.key);
  if (!check) return trial(state, wanted, typed.value.trim());
  const given = readValue(state, check, typed);
  if (!given.ok) return refuse("wrong-input", "The verification was not recorded.", [given.error]);
  const asked = unproven(check, typed, given.value);
  if (asked) return asked;
  // Read as if it were one more reading, to be judged alike; it is kept as a verification, since the machine is another one now.
  const after = takeReading(state, { key: check.key, given: given.value, stamp });
  if (!after.ok) return err(refusalOf(after.error));
  const event = after.value.record.events.at(-1);
  if (event?.kind !== "reading") throw new RangeError("Cannot judge the verification: the last event is no reading");
  return ok({ check: event.check, given: event.given, verdict: event.verdict });
}

const WORKS = /^(?:works|pass|good|ok|as[ -]expected|stays away)$/iu;
const FAILS = /^(?:fails|fail|bad|not as[ -]expected|comes back|is back)$/iu;

/** A trial of the function: it works, it fails, or the person is unsure. */
function trial(state: JobState, { key, proof }: NumberedVerification, typed: string): Permitted<NewVerification> {
  const given = trialReading(typed);
  if (!given) {
    const message = `"${typed}" is not a result of a trial.`;
    return refuse("wrong-input", "The verification was not recorded.", [
      { at: "proof", message, hint: 'Write "works", "fails" or "not sure".' },
    ]);
  }
  const { temperature, wetness, load } = state.facts.complaint.conditions;
  const condition = [temperature, wetness, load].filter((each) => each !== undefined).join(", ");
  const check = {
    ...{
      key,
      kind: "visual-inspection" as const,
      point: proof.text.slice(0, 600),
      setup: [],
      meter: "no meter",
      minutes: 0,
    },
    condition: condition === "" ? "as in the complaint" : condition,
    expected: INSPECTION_OUTCOME_NAMES.works,
  };
  const verdict = given.kind !== "outcome" ? "inconclusive" : given.outcome === "works" ? "pass" : "fail";
  return ok({ check, given, verdict });
}

function trialReading(typed: string): EnteredReading | undefined {
  if (WORKS.test(typed)) return { kind: "outcome", outcome: "works" };
  if (FAILS.test(typed)) return { kind: "outcome", outcome: "fails" };
  return /^(?:not[ -]sure|unsure|\?)$/iu.test(typed) ? { kind: "unsure" } : undefined;
}

/** Most characters of what was not checked, and room for the verifications that are added to it. */
const MOST_NOT_CHECKED = 1000;

function close(job: OpenJob, { outcome, notChecked }: StepOf<"close">, stamp: Stamp): Taken {
  const { state } = job;
  if (outcome === "repaired" && state.facts.repairs.length === 0) {
    return refuse("out-of-turn", 'No repair is recorded. Record it first: "ohmward job repair".');
  }
  if ((notChecked?.length ?? 0) > MOST_NOT_CHECKED) {
    const message = `The text is longer than ${MOST_NOT_CHECKED} characters.`;
    return refuse("wrong-input", "The job was not closed.", [{ at: "--not-checked", message, hint: SHORTER }]);
  }
  const missing =
    outcome === "repaired" ? verificationFacts(state).filter(({ result }) => result?.verdict !== "pass") : [];
  const unproven = missing.map(({ text, result }) => (result ? `${text} (${result.text})` : text));
  const words = [notChecked?.trim() ?? "", ...unproven.map((text) => `Not verified: ${text}`)].filter(
    (each) => each !== "",
  );
  const rest = words.length === 0 ? {} : { notChecked: words.join(" ").slice(0, 2000) };
  const closed = noteEvent(state, { kind: "closed", outcome, ...rest }, stamp);
  return taken(job, closed, { text: `Closed: ${OUTCOME_NAMES[outcome]}.` });
}

/** The change is recorded; readings of checks that the new data no longer has do not count any more. */
function adoptData(machine: Machine, record: JobRecord, stamp: Stamp): Taken {
  const wanted = record.machine;
  const harness = harnessOf(machine, record);
  if (!harness.ok) return harness;
  const named = machineNamed(harness.value);
  if (named.contentHash === wanted.contentHash) return refuse("out-of-turn", "The job uses this harness data already.");
  const text = `Harness data changed: fingerprint ${wanted.contentHash}, now ${named.contentHash}.`;
  const moved = appendEvent({ ...record, machine: named }, { kind: "note", text }, stamp);
  const job = resumed(machine, moved);
  if (!job.ok) return job;
  const { facts, model } = job.value.state;
  const lost = facts.readings.filter(({ check }) => !model.checks.has(check.key)).length;
  const rest =
    lost === 0 ? "Every reading still counts." : `${lost} of ${facts.readings.length} readings no longer count.`;
  const events = moved.events.slice(-1).map(({ id }) => id);
  return ok({ record: moved, opened: job, written: { events, text: `${text} ${rest}` } });
}
