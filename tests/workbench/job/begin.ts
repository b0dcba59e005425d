import { beginJob, type JobRequest, type JobStep, type OpenJob, type StepTaken } from "ohmward/workbench";
import { demo } from "../demo-machine.ts";

/** A moment; the clock of a test stands still. */
export const stamp = { at: "2031-01-05T07:30:00Z", writer: "t" };

/** Begins a job on the demo machine; throws if it is refused. */
export function begin(request: Partial<JobRequest>, machine = demo): OpenJob {
  const begun = beginJob(machine, { id: "J-1", build: "base", complaint: "as told", ...request }, stamp);
  if (!begun.ok) throw new Error(JSON.stringify(begun.error));
  return begun.value;
}

/** Takes a step; throws if it is refused. */
export function step(job: OpenJob, wanted: JobStep): StepTaken {
  const taken = wanted(job, stamp);
  if (!taken.ok) throw new Error(JSON.stringify(taken.error));
  return taken.value;
}
