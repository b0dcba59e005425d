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

/** A machine as it lies in the database of the browser. */
export interface StoredMachine {
  /** The mark of its data, as addresses carry it. */
  readonly mark: string;
  readonly name: string;
  readonly fileName: string;
  /** The harness document; absent where the machine is known by name only. */
  readonly text?: string;
  /** When it was opened last, ISO 8601. */
  readonly usedAt?: string;
}

interface DeviceSchema extends DBSchema {
  jobs: { key: string; value: StoredJob };
  machines: { key: string; value: StoredMachine };
}

/** The database on this device. */
export type DeviceDatabase = IDBPDatabase<DeviceSchema>;

const NAME = "ohmward";
const VERSION = 2;

/**
 * Opens the database; makes it the first time.
 *
 * @param onLost Called when the browser took the database away, or another window needs it in a newer form.
 * @returns The database; the promise fails where the browser refuses to store anything.
 */
export async function openDeviceDatabase(onLost: () => void): Promise<DeviceDatabase> {
  const database = await openDB<DeviceSchema>(NAME, VERSION, {
    upgrade: (fresh, before) => {
      if (before < 1) fresh.createObjectStore("jobs", { keyPath: "id" });
      if (before < 2) fresh.createObjectStore("machines", { keyPath: "mark" });
    },
    blocking: () => {
      database.close();
      onLost();
    },
    terminated: onLost,
  });
  return database;
}
