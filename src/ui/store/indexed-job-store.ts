import { readRecord, summariseJob, writeRecord } from "../../application/index.ts";
import { err, ok, type Result } from "../../base/index.ts";
import type { JobRecord, JobStore, StoreFault } from "../../job-records/index.ts";
import type { DeviceDatabase, StoredJob } from "./device-database.ts";
import { refusalWords } from "./refusal-words.ts";

/**
 * Keeps jobs in the database of the browser. Looking and writing are one transaction, and it is strict: a step counts as saved only once
 * it would outlast a power cut.
 *
 * @param database The open database.
 */
export function indexedJobStore(database: DeviceDatabase): JobStore {
  return {
    list: async () => (await database.getAll("jobs")).map(({ text: _, ...summary }) => summary),
    load: async (id) => {
      const stored = await database.get("jobs", id);
      return stored ? readStored(stored) : err({ kind: "missing", id });
    },
    save: (record, eventCount) => guarded(() => save(database, record, eventCount)),
    remove: (id) =>
      guarded(async () => {
        await database.delete("jobs", id);
        return ok(undefined);
      }),
  };
}

async function save(
  database: DeviceDatabase,
  record: JobRecord,
  eventCount: number,
): Promise<Result<JobRecord, StoreFault>> {
  const row: StoredJob = { ...summariseJob(record), text: writeRecord(record) };
  const transaction = database.transaction("jobs", "readwrite", { durability: "strict" });
  const stored = await transaction.store.get(record.id);
  const fault = faultOf(record.id, stored, eventCount);
  if (!fault) await transaction.store.put(row);
  await transaction.done;
  return fault ? err(fault) : ok(record);
}

function faultOf(id: string, stored: StoredJob | undefined, eventCount: number): StoreFault | undefined {
  if (!stored) return eventCount === 0 ? undefined : { kind: "missing", id };
  if (stored.eventCount === eventCount) return undefined;
  const read = readStored(stored);
  return read.ok ? { kind: "changed-elsewhere", stored: read.value } : read.error;
}

function readStored({ id, text }: StoredJob): Result<JobRecord, StoreFault> {
  const read = readRecord(text);
  return read.ok ? read : err({ kind: "unreadable", id, problems: read.error });
}

async function guarded<Value>(work: () => Promise<Result<Value, StoreFault>>): Promise<Result<Value, StoreFault>> {
  try {
    return await work();
  } catch (fault) {
    return err({ kind: "cannot-write", reason: refusalWords(fault) });
  }
}
