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
 * Takes a job up again.
 *
 * @param machine The machine.
 * @param record The record of the job.
 * @returns The job as it stood; a refusal if the record is of another machine, of other data of this machine, or of a build that this
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
      `The data of ${wanted.machine} is not the data the job was opened with: its fingerprint was ${wanted.contentHash} and is ${contentHash}.`,
      [
        {
          at: "--machine",
          message:
            "With other data a reading may mean something else: pins, wires or expected values may have changed.",
          hint: 'Either name the file the job was opened with (--machine), or go on with the changed data: "ohmward job update-data".',
        },
      ],
    );
  }
  return resumed(machine, record);
}

/** The machine in the build that a job is about; a refusal if the data is of another machine or has no such build. */
export function harnessOf(machine: Machine, { machine: wanted }: JobRecord): Result<Harness, JobRefusal> {
  const { about } = machine.document;
  if (about.machine !== wanted.machine) {
    return refuse("other-machine", `The job is about "${wanted.machine}", and this data is of "${about.machine}".`);
  }
  const harness = machine.harness(wanted.build.id);
  return harness
    ? ok(harness)
    : refuse("no-build", `The job is about build "${wanted.build.id}", which this data of the machine has not.`);
}

/** As {@link openJob}, without looking at the fingerprint of the data. */
export function resumed(machine: Machine, record: JobRecord): Result<OpenJob, JobRefusal> {
  const harness = machine.harness(record.machine.build.id);
  if (!harness) return refuse("no-build", `This machine has no build "${record.machine.build.id}".`);
  const state = resumeJob(harness, record);
  return state.ok ? ok({ machine, state: state.value }) : err(refusalOf(state.error));
}

/** What the planner refuses, in the words of an answer. */
export function refusalOf(fault: JobFault): JobRefusal {
  switch (fault.kind) {
    case "forbidden":
      return jobRefusal("forbidden", fault.reason);
    case "other-machine":
      return jobRefusal("other-machine", fault.reason);
    case "unknown-check":
      return jobRefusal("wrong-input", `There is no permitted check "${fault.key}" in this job.`);
    case "unknown-event":
      return jobRefusal("wrong-input", `The job has no such reading or event "${fault.id}".`);
    case "wrong-reading":
      return jobRefusal("wrong-input", `${fault.reason}.`);
    default:
      return unreachable(fault);
  }
}
