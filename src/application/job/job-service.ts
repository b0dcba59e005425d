import { ok, type Result } from "../../base/index.ts";
import type { JobRecord, Stamp } from "../../job-records/index.ts";
import type { ChooseAnswer } from "../answer.ts";
import type { Machine } from "../open-machine.ts";
import { beginJob, type JobRequest } from "./begin-job.ts";
import { findCheck } from "./check-codes.ts";
import type { JobChecksAnswer, JobNextAnswer, JobRefusal, JobReportAnswer, JobShowAnswer } from "./job-answers.ts";
import { jobNext, type NextRequest } from "./job-next.ts";
import { jobChecks, jobReport, jobShow, type ChecksRequest } from "./job-views.ts";
import { openJob, type OpenJob } from "./open-job.ts";
import { takeStep, type JobStep, type StepTaken } from "./take-step.ts";

/** All that is shown of a job: the answers that the command line gives as `next`, `show` and `report`. */
export interface JobView {
  readonly record: JobRecord;
  readonly next: JobNextAnswer;
  readonly show: JobShowAnswer;
  readonly report: JobReportAnswer;
}

/** A job that was started or went a step on; the view says why not where the job leads to circuits on which no test is permitted. */
export interface JobMoved extends Pick<StepTaken, "record" | "written"> {
  readonly view: Result<JobView, JobRefusal>;
}

/**
 * All that is shown of a job.
 *
 * @param machine The machine.
 * @param record The record of the job.
 * @param check Short name or key of a check that is wanted in place of the proposed one.
 */
export function viewJob(machine: Machine, record: JobRecord, check?: string): Result<JobView, JobRefusal> {
  const job = openJob(machine, record);
  if (!job.ok || check === undefined) return job.ok ? ok(viewOf(job.value)) : job;
  const found = findCheck(job.value.state.model.checks, check);
  return found.ok ? ok(viewOf(job.value, { check: found.value })) : found;
}

/** Starts a job and shows it; see {@link beginJob}. */
export function beginView(
  machine: Machine,
  request: JobRequest,
  stamp: Stamp,
): Result<JobView, JobRefusal | ChooseAnswer> {
  const begun = beginJob(machine, request, stamp);
  return begun.ok ? ok(viewOf(begun.value)) : begun;
}

/** Takes a step of a job and shows what is next; see {@link takeStep}. */
export function stepView(
  machine: Machine,
  record: JobRecord,
  step: JobStep,
  stamp: Stamp,
): Result<JobMoved, JobRefusal> {
  const taken = takeStep(machine, record, step, stamp);
  if (!taken.ok) return taken;
  const { written, opened } = taken.value;
  const view = opened.ok ? ok(viewOf(opened.value, { written })) : opened;
  return ok({ record: taken.value.record, written, view });
}

/** The permitted checks of a job that hold some words; see {@link jobChecks}. */
export function findChecks(
  machine: Machine,
  record: JobRecord,
  request: ChecksRequest,
): Result<JobChecksAnswer, JobRefusal> {
  const job = openJob(machine, record);
  return job.ok ? ok(jobChecks(job.value, request)) : job;
}

function viewOf(job: OpenJob, request: NextRequest = {}): JobView {
  const next = jobNext(job, request);
  return { record: job.state.record, next, show: jobShow(job), report: jobReport(job, next) };
}
