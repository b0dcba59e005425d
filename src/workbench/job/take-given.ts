import { err, ok, type Result } from "../../base/index.ts";
import { editReading, nextCheck, takeReading } from "../../diagnosis/index.ts";
import { describeGiven, type GivenReading } from "../../records/index.ts";
import { findCheck, type PermittedCheck } from "./check-codes.ts";
import { findEvent } from "./find-event.ts";
import type { JobRefusal } from "./job-answers.ts";
import { stepTaken, type JobStep, type StepTaken } from "./job-step.ts";
import { jobStage } from "./job-stage.ts";
import { refusalOf, type OpenJob } from "./open-job.ts";
import { readValue, type ValueRequest } from "./read-value.ts";
import { refuse } from "./refuse.ts";

/** A reading of the check that is asked for, or of another permitted one. */
export interface ReadingRequest extends ValueRequest {
  /** Short name or key of a check; the one that is asked for where absent. */
  readonly check?: string;
}

/** Takes a reading. */
export function giveReading(request: ReadingRequest): JobStep {
  return (job, stamp) => {
    const check = checkFor(job, request.check);
    if (!check.ok) return check;
    const given = readValue(job.state, check.value, request);
    if (!given.ok) return refuse("wrong-input", "The reading was not taken.", [given.error]);
    return take(job, check.value, { given: given.value, stamp });
  };
}

/** Says that a check cannot be done, so that another one is asked for. */
export function skipCheck(request: { readonly check?: string; readonly reason?: string }): JobStep {
  return (job, stamp) => {
    const check = checkFor(job, request.check);
    if (!check.ok) return check;
    const reason = request.reason?.trim();
    if (reason !== undefined && reason.length > 600) {
      const problem = { at: "reason", message: "The reason is longer than 600 characters.", hint: "Say it shorter." };
      return refuse("wrong-input", "Nothing was written down.", [problem]);
    }
    const given: GivenReading = { kind: "cannot-be-done", ...(reason ? { reason } : {}) };
    return take(job, check.value, { given, stamp });
  };
}

/** Corrects an earlier reading. */
export function correctReading(event: string, request: ValueRequest): JobStep {
  return (job, stamp) => {
    const { state } = job;
    if (jobStage(state) === "closed") return closedRefusal();
    const found = findEvent(state, event);
    if (!found.ok) return found;
    if (found.value.kind !== "reading") {
      return refuse("wrong-input", `${found.value.id} is no reading, so it cannot be corrected: take it back instead.`);
    }
    const check = state.workup.checks.get(found.value.check.key);
    if (!check) return refuse("wrong-input", `The check of ${found.value.id} is no longer among the permitted ones.`);
    const given = readValue(state, check, request);
    if (!given.ok) return refuse("wrong-input", "The reading was not corrected.", [given.error]);
    const edited = editReading(state, found.value.id, given.value, stamp);
    if (!edited.ok) return err(refusalOf(edited.error));
    const text = `Corrected: ${found.value.check.point}: ${describeGiven(given.value)}, in place of ${describeGiven(found.value.given)}.`;
    return ok(stepTaken(job, edited.value, { text }));
  };
}

interface GivenAt {
  readonly given: GivenReading;
  readonly stamp: Parameters<JobStep>[1];
}

function take(job: OpenJob, check: PermittedCheck, { given, stamp }: GivenAt): Result<StepTaken, JobRefusal> {
  const taken = takeReading(job.state, { key: check.key, given, stamp });
  if (!taken.ok) return err(refusalOf(taken.error));
  const event = taken.value.record.events.at(-1);
  if (event?.kind !== "reading") throw new RangeError("Cannot tell what was taken: the last event is no reading");
  const { verdict } = event;
  const judged = verdict === "no-verdict" ? "no verdict" : verdict.replaceAll("-", " ");
  const text = `Written down: ${event.check.point}: ${describeGiven(given)}; expected ${event.check.expected}; ${judged}.`;
  return ok(stepTaken(job, taken.value, { text, verdict }));
}

/** The check that is named, or the one that is asked for. */
function checkFor({ state }: OpenJob, named: string | undefined): Result<PermittedCheck, JobRefusal> {
  const stage = jobStage(state);
  if (stage === "closed") return closedRefusal();
  if (named !== undefined) return findCheck(state.workup.checks, named);
  if (stage === "proving") {
    return refuse(
      "out-of-turn",
      'A repair was written down, so its proofs come next: give them with "ohmward job proof". To go on checking name a check (--check).',
    );
  }
  const next = nextCheck(state);
  const check = "check" in next ? state.workup.checks.get(next.check.key) : undefined;
  if (check) return ok(check);
  return refuse(
    "out-of-turn",
    'No check is asked for now ("ohmward job next" says what is). To take one all the same name it (--check).',
  );
}

/** A closed job takes nothing more. */
export function closedRefusal(): Result<never, JobRefusal> {
  return refuse("out-of-turn", 'The job is closed. "ohmward job undo" takes the closing back.');
}
