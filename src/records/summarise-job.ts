import { foldRecord } from "./fold-record.ts";
import type { JobSummary } from "./job-store.ts";
import type { JobRecord } from "./schema.ts";

/** The line that a job takes in the list of jobs. */
export function summariseJob(record: JobRecord): JobSummary {
  const facts = foldRecord(record);
  return {
    id: record.id,
    machine: record.machine.machine,
    complaint: facts.complaint.words,
    openedAt: record.openedAt,
    eventCount: record.events.length,
    isClosed: facts.closed !== undefined,
  };
}
