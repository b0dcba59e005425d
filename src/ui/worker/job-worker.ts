import "../state/zod-without-eval.ts";
import { err, unreachable, type Result } from "../../base/index.ts";
import {
  editReading,
  noteEvent,
  resumeJob,
  startJob,
  takeReading,
  undo,
  verdictOf,
  type JobFault,
  type JobState,
} from "../../diagnosis/index.ts";
import { fitBuild, type Harness, type HarnessDocument } from "../../model/index.ts";
import type { JobRecord, Stamp } from "../../records/index.ts";
import type { Beginning, JobReplies, JobRequest, JobStep } from "./job-messages.ts";
import { searchChecks } from "./search-checks.ts";
import { sentFault } from "./sent-fault.ts";
import { previewOf, showJob } from "./show-job.ts";

// A worker has one machine at a time; the page tells it which, first of all.
let document: HarnessDocument | undefined;
let fitted = new Map<string, Harness>();

self.addEventListener("message", ({ data }: MessageEvent<{ number: number; request: JobRequest }>) => {
  const { number, request } = data;
  try {
    self.postMessage({ number, reply: answer(request) });
  } catch (fault) {
    self.postMessage({ number, failure: sentFault(fault) });
  }
});

function answer(request: JobRequest): JobReplies[JobRequest["kind"]] {
  switch (request.kind) {
    case "machine":
      document = request.document;
      fitted = new Map();
      return undefined;
    case "preview":
      return map(begin(request.build, request.beginning), previewOf);
    case "begin":
      return map(begin(request.build, request.beginning), ({ record }) => record);
    case "step":
      return map(resume(request.record), (state) => take(state, request.step, request.stamp));
    case "show":
      return map(resume(request.record), (state) => showJob(state, request.chosen));
    case "search": {
      const state = resume(request.record);
      return state.ok ? searchChecks(state.value, request.words) : { found: [], count: 0 };
    }
    default:
      return unreachable(request);
  }
}

function begin(build: string, { job, priors }: Beginning): Result<JobState, JobFault> {
  const harness = harnessOf(build);
  if (!harness) return noSuchBuild(build);
  const started = startJob(harness, job);
  if (!started.ok) return started;
  const state = priors.reduce((at, prior) => noteEvent(at, { kind: "prior", ...prior }, job.stamp), started.value);
  return { ok: true, value: state };
}

function resume(record: JobRecord): Result<JobState, JobFault> {
  const harness = harnessOf(record.machine.build.id);
  return harness ? resumeJob(harness, record) : noSuchBuild(record.machine.build.id);
}

function noSuchBuild(build: string): Result<never, JobFault> {
  return err({ kind: "other-machine", reason: `The open machine has no build "${build}"` });
}

function harnessOf(build: string): Harness | undefined {
  const known = fitted.get(build);
  if (known || !document) return known;
  const harness = fitBuild(document, build);
  if (harness) fitted.set(build, harness);
  return harness;
}

function take(state: JobState, step: JobStep, stamp: Stamp): Result<JobRecord, JobFault> {
  switch (step.kind) {
    case "reading":
      return map(takeReading(state, { key: step.key, given: step.given, stamp }), recordOf);
    case "edit":
      return map(editReading(state, step.of, step.given, stamp), recordOf);
    case "proof":
      return prove(state, step, stamp);
    case "undo": {
      let at: Result<JobState, JobFault> = { ok: true, value: state };
      for (const id of step.ids) at = map(at, (before) => undo(before, id, stamp));
      return map(at, recordOf);
    }
    case "note":
      return { ok: true, value: step.events.reduce((at, event) => noteEvent(at, event, stamp), state).record };
    default:
      return unreachable(step);
  }
}

function prove(
  state: JobState,
  { key, given }: Extract<JobStep, { kind: "proof" }>,
  stamp: Stamp,
): Result<JobRecord, JobFault> {
  const check = state.workup.checks.get(key);
  const recorded = state.facts.readings.find((reading) => reading.check.key === key)?.check;
  if (!check || !recorded) return err({ kind: "unknown-check", key });
  const verdict = verdictOf(state, check, given);
  return { ok: true, value: noteEvent(state, { kind: "proof", check: recorded, given, verdict }, stamp).record };
}

function recordOf({ record }: JobState): JobRecord {
  return record;
}

/** Goes on with a value; what is made of it may be a result of its own. */
function map<From, To>(
  from: Result<From, JobFault>,
  to: (value: From) => To | Result<To, JobFault>,
): Result<To, JobFault> {
  if (!from.ok) return from;
  const made = to(from.value);
  return isResult(made) ? made : { ok: true, value: made };
}

function isResult<Value>(made: Value | Result<Value, JobFault>): made is Result<Value, JobFault> {
  return typeof made === "object" && made !== null && "ok" in made;
}
