import type { Result } from "../../base/index.ts";
import type { JobState } from "../../diagnosis/index.ts";
import type { Stamp } from "../../records/index.ts";
import type { JobNextAnswer, JobRefusal } from "./job-answers.ts";
import type { OpenJob } from "./open-job.ts";

/** A job after a step, with what was written down. */
export interface StepTaken {
  readonly job: OpenJob;
  readonly written: NonNullable<JobNextAnswer["written"]>;
}

/** One step of a job: the job as it stands, who writes and when; the job after it, or why the step was not taken. */
export type JobStep = (job: OpenJob, stamp: Stamp) => Result<StepTaken, JobRefusal>;

/**
 * A step that was taken: the events that are new in the record are what was written down.
 *
 * @param before The job before.
 * @param state The state after.
 * @param words What was done, as a sentence.
 */
export function stepTaken(before: OpenJob, state: JobState, words: Omit<StepTaken["written"], "events">): StepTaken {
  const events = state.record.events.slice(before.state.record.events.length).map(({ id }) => id);
  return { job: { ...before, state }, written: { events, ...words } };
}
