import type { Result } from "../base/index.ts";
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
 * @param store The store.
 * @param record The record to save.
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
