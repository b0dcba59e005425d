import type { JobStore } from "../../job-records/index.ts";
import { openDeviceDatabase } from "./device-database.ts";
import { indexedJobStore } from "./indexed-job-store.ts";
import { memoryJobStore } from "./memory-job-store.ts";
import { refusalWords } from "./refusal-words.ts";

/** A place for jobs, and why it is only the memory of the page, if it is. */
export interface OpenedStore {
  readonly store: JobStore;
  readonly refusal?: string;
}

/**
 * Opens the store of this device; where the browser refuses one, a store that lasts as long as the page.
 *
 * @param onLost Called when the browser takes the store away later.
 */
export async function openJobStore(onLost: () => void): Promise<OpenedStore> {
  try {
    const store = indexedJobStore(await openDeviceDatabase(onLost));
    // Some browsers hand the database out and refuse it at the first use.
    await store.list();
    return { store };
  } catch (fault) {
    return { store: memoryJobStore(), refusal: refusalWords(fault) };
  }
}

/** Asks the browser not to clear jobs and machine away when space runs short; it may say no, and then nothing is lost by having asked. */
export async function askToKeep(): Promise<void> {
  try {
    // Absent where the page was not served over a secure connection.
    if (!("storage" in navigator)) return;
    if (!(await navigator.storage.persisted())) await navigator.storage.persist();
  } catch {
    // Asking was all that could be done.
  }
}
