import { openDB, type DBSchema, type IDBPDatabase } from "idb";

/** A job as it lies in the database of the browser. */
export interface StoredJob {
  readonly id: string;
  /** The record as it would stand in a file; read through the same door, so an older version is carried to the newest. */
  readonly text: string;
  readonly eventCount: number;
  readonly machine: string;
  readonly complaint: string;
  readonly openedAt: string;
  readonly isClosed: boolean;
}

interface JobSchema extends DBSchema {
  jobs: { key: string; value: StoredJob };
}

/** The database of the jobs on this device. */
export type JobDatabase = IDBPDatabase<JobSchema>;

const NAME = "ohmward";
const VERSION = 1;

/**
 * Opens the database; makes it the first time.
 *
 * @param onLost Called when the browser took the database away, or another window needs it in a newer form.
 * @returns The database; the promise fails where the browser refuses to store anything.
 */
export async function openJobDatabase(onLost: () => void): Promise<JobDatabase> {
  const database = await openDB<JobSchema>(NAME, VERSION, {
    upgrade: (fresh) => void fresh.createObjectStore("jobs", { keyPath: "id" }),
    blocking: () => {
      database.close();
      onLost();
    },
    terminated: onLost,
  });
  return database;
}
