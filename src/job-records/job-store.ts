import type { Result } from "../base/index.ts";
import { replayEvents } from "./replay-events.ts";
import type { RecordProblem } from "./read-record.ts";
import type { JobRecord } from "./schema.ts";

/** A line of the list of jobs. */
export interface JobSummary {
  readonly id: string;
  readonly machine: string;
  readonly complaint: string;
  readonly openedAt: string;
  readonly eventCount: number;
  readonly isClosed: boolean;
}

/** Why a store did not do what was asked. `changed-elsewhere` carries what is stored now, to be joined. */
export type StoreFault =
  | { readonly kind: "missing"; readonly id: string }
  | { readonly kind: "unreadable"; readonly id: string; readonly problems: readonly RecordProblem[] }
  | { readonly kind: "changed-elsewhere"; readonly stored: JobRecord }
  | { readonly kind: "cannot-write"; readonly reason: string };

/**
 * Where jobs are kept. A store saves a record whole and at once, or not at all: whatever happens while it saves, the record before or
 * the record after can be loaded.
 */
export interface JobStore {
  readonly list: () => Promise<readonly JobSummary[]>;
  readonly load: (id: string) => Promise<Result<JobRecord, StoreFault>>;
  /**
   * Saves a record after its `eventCount` first events were loaded or saved before; 0 for a new job. If somebody else has stored events
   * since, nothing is written and the stored record comes back.
   */
  readonly save: (record: JobRecord, eventCount: number) => Promise<Result<JobRecord, StoreFault>>;
  readonly remove: (id: string) => Promise<Result<undefined, StoreFault>>;
}

/**
 * Saves a record, joining it with what others stored meanwhile, so that nothing is lost.
 *
 * @param eventCount How many of its events are known to be stored.
 * @param join Joins two copies of a job.
 * @returns The record as it is stored now, which may hold events of others.
 */
export async function saveJoined(
  store: JobStore,
  record: JobRecord,
  eventCount: number,
  join: (mine: JobRecord, theirs: JobRecord) => JobRecord,
): Promise<Result<JobRecord, StoreFault>> {
  const saved = await store.save(record, eventCount);
  if (saved.ok || saved.error.kind !== "changed-elsewhere") return saved;
  const { stored } = saved.error;
  return saveJoined(store, join(record, stored), stored.events.length, join);
}

/** The line that a job takes in the list of jobs. */
export function summariseJob(record: JobRecord): JobSummary {
  const facts = replayEvents(record);
  return {
    id: record.id,
    machine: record.machine.machine,
    complaint: facts.complaint.words,
    openedAt: record.openedAt,
    eventCount: record.events.length,
    isClosed: facts.closed !== undefined,
  };
}

/**
 * Joins two copies of one job that were worked on apart, such as in two windows, so that no event of either is lost: first what both have,
 * then the rest by time.
 *
 * @param theirs The other copy, of the same job.
 * @returns The joined record; equal to the longer copy if one simply goes on from the other.
 * @throws RangeError if the copies are of different jobs.
 */
export function mergeRecords(mine: JobRecord, theirs: JobRecord): JobRecord {
  if (mine.id !== theirs.id) throw new RangeError(`Cannot join records: "${mine.id}" and "${theirs.id}" are two jobs`);
  const known = new Set(mine.events.map((event) => event.id));
  const added = theirs.events.filter((event) => !known.has(event.id));
  if (added.length === 0) return mine;
  const inBoth = new Set(theirs.events.map((event) => event.id));
  const shared = mine.events.filter((event) => inBoth.has(event.id));
  const own = mine.events.filter((event) => !inBoth.has(event.id));
  return { ...mine, events: [...shared, ...byTime(own, added)] };
}

/** Merges two lists by time without changing the order inside either, so that what refers to an event stays behind it. */
function byTime(first: JobRecord["events"], second: JobRecord["events"]): JobRecord["events"] {
  const merged: JobRecord["events"] = [];
  let left = 0;
  let right = 0;
  while (left < first.length || right < second.length) {
    const a = first[left];
    const b = second[right];
    if (a && (!b || a.at <= b.at)) {
      merged.push(a);
      left += 1;
    } else if (b) {
      merged.push(b);
      right += 1;
    }
  }
  return merged;
}
