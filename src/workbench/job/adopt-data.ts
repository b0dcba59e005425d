import { ok, type Result } from "../../base/index.ts";
import { machineOf as machineNamed } from "../../diagnosis/index.ts";
import { appendEvent, type JobRecord, type Stamp } from "../../records/index.ts";
import type { Machine } from "../open-machine.ts";
import type { JobRefusal } from "./job-answers.ts";
import { harnessOf, resumed } from "./open-job.ts";
import type { StepTaken } from "./job-step.ts";
import { refuse } from "./refuse.ts";

/**
 * Goes on with other data of the same machine than the job was opened with. The change is written down; readings of checks that the new
 * data no longer has do not count any more.
 *
 * @param machine The machine with its changed data.
 * @param record The record of the job.
 * @param stamp Who does it and when.
 */
export function adoptData(machine: Machine, record: JobRecord, stamp: Stamp): Result<StepTaken, JobRefusal> {
  const wanted = record.machine;
  const harness = harnessOf(machine, record);
  if (!harness.ok) return harness;
  const named = machineNamed(harness.value);
  if (named.contentHash === wanted.contentHash)
    return refuse("out-of-turn", "This is the data the job was opened with.");
  const text = `Data of the machine changed: fingerprint ${wanted.contentHash}, now ${named.contentHash}.`;
  const moved = appendEvent({ ...record, machine: named }, { kind: "note", text }, stamp);
  const job = resumed(machine, moved);
  if (!job.ok) return job;
  const { facts, workup } = job.value.state;
  const lost = facts.readings.filter(({ check }) => !workup.checks.has(check.key)).length;
  const rest =
    lost === 0 ? "Every reading still counts." : `${lost} of ${facts.readings.length} readings no longer count.`;
  const events = moved.events.slice(-1).map(({ id }) => id);
  return ok({ job: job.value, written: { events, text: `${text} ${rest}` } });
}
