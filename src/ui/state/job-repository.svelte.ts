import type { JobRecord, JobStore, JobSummary, StoreFault } from "../../job-records/index.ts";
import { mergeRecords, readRecord, saveJoined } from "../../application/index.ts";
import { unreachable } from "../../base/index.ts";
import { openJobChannel, type JobChangeMessage } from "../store/job-channel.ts";
import { memoryJobStore } from "../store/memory-job-store.ts";
import { askToKeep, openJobStore, type OpenedStore } from "../store/open-job-store.ts";

/** The jobs on this device: the list, loading, saving, deleting, and news from other windows. */
export class JobRepository {
  list = $state.raw<readonly JobSummary[]>([]);
  /** Why nothing is kept when the page is closed; undefined while all is well. */
  refusal = $state<string>();
  /** The job that was deleted last, until the next one or until it is restored. */
  removed = $state.raw<JobRecord>();

  #opened: Promise<OpenedStore> | undefined;
  #hear: (news: JobChangeMessage) => void = () => undefined;
  readonly #channel = openJobChannel((news) => {
    void this.look();
    this.#hear(news);
  });

  /** Says who is told of news from other windows. */
  listen(hear: (news: JobChangeMessage) => void): void {
    this.#hear = hear;
  }

  /** Reads the list again. */
  async look(): Promise<void> {
    const list = await (await this.#store()).list();
    this.list = [...list].sort((a, b) => (a.openedAt < b.openedAt ? 1 : -1));
  }

  /** A stored job, or a sentence that says why there is none. */
  async load(id: string): Promise<JobRecord | string> {
    const loaded = await (await this.#store()).load(id);
    return loaded.ok ? loaded.value : faultWords(loaded.error);
  }

  /**
   * Saves a record, joined with what others stored meanwhile.
   *
   * @param record The record.
   * @param eventCount How many of its events are stored already.
   * @returns The record as it is stored now.
   */
  async save(record: JobRecord, eventCount: number): Promise<JobRecord> {
    const store = await this.#store();
    let saved = await saveJoined(store, record, eventCount, mergeRecords);
    // Deleted elsewhere while it was worked on: the work of this window is not thrown away.
    if (!saved.ok && saved.error.kind === "missing") saved = await store.save(record, 0);
    if (eventCount === 0) void askToKeep();
    if (!saved.ok) return this.#keepInMemory(record, faultWords(saved.error));
    this.#channel.tell({ id: record.id, kind: "saved" });
    await this.look();
    return saved.value;
  }

  /** Deletes a job; it can be restored until the next one is deleted or the page is closed. */
  async remove(id: string): Promise<void> {
    const store = await this.#store();
    const loaded = await store.load(id);
    const removed = await store.remove(id);
    if (!removed.ok) return;
    this.removed = loaded.ok ? loaded.value : undefined;
    this.#channel.tell({ id, kind: "removed" });
    await this.look();
  }

  async restore(): Promise<void> {
    const record = this.removed;
    this.removed = undefined;
    if (record) await this.save(record, 0);
  }

  /** Takes the text of a job file; a job that is here already is joined with it. Answers with its id, or with what is wrong. */
  async take(text: string): Promise<{ readonly id: string } | { readonly problems: readonly string[] }> {
    const read = readRecord(text);
    if (!read.ok)
      return { problems: read.error.map(({ path, message }) => (path === "" ? message : `${path}: ${message}`)) };
    await this.save(read.value, 0);
    return { id: read.value.id };
  }

  async #store(): Promise<JobStore> {
    this.#opened ??= openJobStore(() => {
      this.#opened = undefined;
    });
    const { store, refusal } = await this.#opened;
    if (refusal !== undefined) this.refusal = refusal;
    return store;
  }

  /** The device took no more: what is there is held by the page from now on, so that the work can go on. */
  async #keepInMemory(record: JobRecord, reason: string): Promise<JobRecord> {
    const before = await this.#store();
    const others = await Promise.all((await before.list()).map(({ id }) => before.load(id)));
    const jobs = others.flatMap((each) => (each.ok && each.value.id !== record.id ? [each.value] : []));
    const store = memoryJobStore([...jobs, record]);
    this.#opened = Promise.resolve({ store, refusal: reason });
    await this.look();
    return record;
  }
}

function faultWords(fault: StoreFault): string {
  switch (fault.kind) {
    case "missing":
      return `There is no job ${fault.id} on this device.`;
    case "unreadable":
      return `Job ${fault.id} cannot be read: ${fault.problems[0]?.message ?? "damaged"}`;
    case "changed-elsewhere":
      return "Another window changed the job.";
    case "cannot-write":
      return fault.reason;
    default:
      return unreachable(fault);
  }
}

/** The one shelf of the page. */
export const jobRepository = new JobRepository();
