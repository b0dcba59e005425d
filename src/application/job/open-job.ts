import { err, ok, unreachable, type Result } from "../../base/index.ts";
import { machineOf as machineNamed, resumeJob, type JobFault, type JobState } from "../../diagnosis/index.ts";
import type { Harness } from "../../harness-model/index.ts";
import type { JobRecord } from "../../job-records/index.ts";
import type { Machine } from "../open-machine.ts";
import type { JobRefusal } from "./job-answers.ts";
import { jobRefusal, refuse } from "./refuse.ts";

/** A job with the machine it is about. */
export interface OpenJob {
  readonly machine: Machine;
  readonly state: JobState;
}

/**
 * Opens a job again.
 *
 * @param machine The machine.
 * @param record The record of the job.
 * @returns The job as it stood; why not if the record is of another machine, of other data of this machine, or of a build that this
 *   data does not have.
 */
export function openJob(machine: Machine, record: JobRecord): Result<OpenJob, JobRefusal> {
  const wanted = record.machine;
  const harness = harnessOf(machine, record);
  if (!harness.ok) return harness;
  const { contentHash } = machineNamed(harness.value);
  if (contentHash !== wanted.contentHash) {
    return refuse(
      "changed-data",
      `The harness data of ${wanted.machine} changed since the job was opened: the fingerprint was ${wanted.contentHash} and is ${contentHash}.`,
      [
        {
          at: "--machine",
          message: "Pins, wires or expected readings may have changed, so a recorded reading may mean something else.",
          hint: 'Give the file the job was opened with (--machine), or continue with the changed data: "ohmward job update-data".',
        },
      ],
    );
  }
  return resumed(machine, record);
}

/** The machine in the build that a job is about; why not if the data is of another machine or has no such variant. */
export function harnessOf(machine: Machine, { machine: wanted }: JobRecord): Result<Harness, JobRefusal> {
  const { about } = machine.document;
  if (about.machine !== wanted.machine) {
    return refuse("other-machine", `The job is about "${wanted.machine}". This harness data is of "${about.machine}".`);
  }
  const harness = machine.harness(wanted.build.id);
  return harness
    ? ok(harness)
    : refuse("no-build", `The job is about variant "${wanted.build.id}". This harness data does not have it.`);
}

/** As {@link openJob}, without looking at the fingerprint of the data. */
export function resumed(machine: Machine, record: JobRecord): Result<OpenJob, JobRefusal> {
  const harness = machine.harness(record.machine.build.id);
  if (!harness) return refuse("no-build", `This machine has no variant "${record.machine.build.id}".`);
  const state = resumeJob(harness, record);
  return state.ok ? ok({ machine, state: state.value }) : err(refusalOf(state.error));
}

/** What the planner does not permit, in the words of an answer. */
export function refusalOf(fault: JobFault): JobRefusal {
  switch (fault.kind) {
    case "forbidden":
      return jobRefusal("forbidden", fault.reason);
    case "other-machine":
      return jobRefusal("other-machine", fault.reason);
    case "unknown-check":
      return jobRefusal("wrong-input", `There is no permitted test "${fault.key}" in this job.`);
    case "unknown-event":
      return jobRefusal("wrong-input", `The job has no reading or event "${fault.id}".`);
    case "wrong-reading":
      return jobRefusal("wrong-input", `${fault.reason}.`);
    default:
      return unreachable(fault);
  }
}
