import { beginJob, takeStep, type JobRefusal, type JobRequest, type JobStep, type OpenJob } from "ohmward/application";
import type { Result } from "ohmward/base";
import { demo } from "../demo-machine.ts";

/** A moment; the clock of a test stands still. */
export const stamp = { at: "2031-01-05T07:30:00Z", writer: "t" };

/** Begins a job on the demo machine; throws if it is refused. */
export function begin(request: Partial<JobRequest>, machine = demo): OpenJob {
  const begun = beginJob(machine, { id: "J-1", build: "base", complaint: "as told", ...request }, stamp);
  if (!begun.ok) throw new Error(JSON.stringify(begun.error));
  return begun.value;
}

/** A job after a step. */
export interface Stepped {
  readonly job: OpenJob;
  readonly written: { readonly events: readonly string[]; readonly text: string };
}

/** Takes a step; throws if it is refused or leads nowhere. */
export function step(job: OpenJob, wanted: JobStep): Stepped {
  const taken = takeStep(job.machine, job.state.record, wanted, stamp);
  if (!taken.ok) throw new Error(JSON.stringify(taken.error));
  const { opened, written } = taken.value;
  if (!opened.ok) throw new Error(JSON.stringify(opened.error));
  return { job: opened.value, written };
}

/** Takes a step that may be refused. */
export function tryStep(job: OpenJob, wanted: JobStep): Result<unknown, JobRefusal> {
  return takeStep(job.machine, job.state.record, wanted, stamp);
}
