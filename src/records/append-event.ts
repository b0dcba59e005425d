import type { JobEvent, JobMachine, JobRecord } from "./schema.ts";
import { JOB_FORMAT, JOB_VERSION } from "./schema.ts";

/** What an event is about, before it has an id. */
export type NewEvent = JobEvent extends infer Each ? (Each extends JobEvent ? Omit<Each, "id" | "at"> : never) : never;

/** Who writes and when: both come from outside, because a record is worked with where there is no clock. */
export interface Stamp {
  /** The moment, ISO 8601. */
  readonly at: string;
  /** Tells writers apart that may write at the same time, such as two open windows; short. */
  readonly writer: string;
}

/**
 * A new record without events.
 *
 * @param id Id of the job, unique where it will be stored.
 * @param machine Which data it is worked with.
 * @param openedAt The moment, ISO 8601.
 */
export function newRecord(id: string, machine: JobMachine, openedAt: string): JobRecord {
  return { format: JOB_FORMAT, version: JOB_VERSION, id, machine, openedAt, events: [] };
}

/**
 * A record with one more event at its end.
 *
 * @param record The record; it is left as it is.
 * @param event What happened.
 * @param stamp Who and when.
 * @returns The longer record; the id of the new event is unique in it.
 */
export function appendEvent(record: JobRecord, event: NewEvent, stamp: Stamp): JobRecord {
  const id = `${record.events.length + 1}.${stamp.writer}`;
  return { ...record, events: [...record.events, { ...event, id, at: stamp.at }] };
}
