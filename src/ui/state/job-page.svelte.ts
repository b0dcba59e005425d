import { ok, type Result } from "../../base/index.ts";
import type { Harness } from "../../harness-model/index.ts";
import type { JobRecord } from "../../job-records/index.ts";
import { mergeRecords, type JobRefusal, type JobStep, type JobView, type Machine } from "../../application/index.ts";
import { machineClient } from "../worker/machine-client.ts";
import { app, type AppState } from "./app.svelte.ts";
import { faultNet } from "./fault-net.svelte.ts";
import { stampNow } from "./job-clock.ts";
import { jobRepository } from "./job-repository.svelte.ts";

/** The job that is open. Every step is saved before it is shown; steps are taken one after the other. */
export class JobPageState {
  record = $state.raw<JobRecord>();
  /** The answers about the job; undefined while there are none, or where it cannot go on. */
  view = $state.raw<JobView>();
  /** Why the job cannot go on with the machine that is open. */
  refusal = $state.raw<JobRefusal>();
  /** What is being worked out; empty while a person is at the turn. */
  doing = $state("");
  /** Why the last step was not taken. */
  refused = $state.raw<JobRefusal>();
  /** The program failed. */
  fault = $state("");
  /** What another window did. */
  news = $state("");
  /** The id that was asked for and could not be opened, with the reason. */
  missing = $state.raw<{ readonly id: string; readonly reason: string }>();

  readonly harness = $derived<Harness | undefined>(
    this.record && this.#desk().machine?.harness(this.record.machine.build.id),
  );

  #queue: Promise<unknown> = Promise.resolve();
  #isTaking = false;
  /** The machine that the view holds for. */
  #viewed: Machine | undefined;

  constructor() {
    jobRepository.listen(({ id, kind }) => {
      if (id === this.record?.id) void this.#do("", () => this.#hear(kind));
    });
  }

  #desk(): AppState {
    return app;
  }

  /** Opens a job; nothing happens if it is open. */
  open(id: string): void {
    if (this.record?.id === id) return;
    void this.#do("Opening the job", async () => {
      const loaded = await jobRepository.load(id);
      this.#leave();
      if (typeof loaded === "string") this.missing = { id, reason: loaded };
      else await this.#show(loaded);
    });
  }

  /** Works the open job out again, after another machine was opened. */
  refresh(): void {
    const { record } = this;
    if (record && this.#desk().machine !== this.#viewed) void this.#do("Opening the job", () => this.#show(record));
  }

  /** Puts a check in the place of the proposed one; undefined goes back to the proposed one. */
  choose(check: string | undefined): void {
    const { record } = this;
    if (record) void this.#do("Preparing the check", () => this.#show(record, check));
  }

  /**
   * Takes a step: worked out, saved, then shown. Pressing twice does it once.
   *
   * @param step The step.
   * @param isTold Whether the caller shows why it was not taken; else the page does.
   * @returns Why it was not taken.
   */
  async step(step: JobStep, isTold = false): Promise<JobRefusal | undefined> {
    if (this.#isTaking) return undefined;
    this.#isTaking = true;
    return this.#do("Calculating", async () => {
      const { machine } = this.#desk();
      const before = this.record;
      if (!before || !machine) return undefined;
      const request = { record: before, step, stamp: stampNow() };
      const moved = await machineClient.ask("job-step", request, { document: machine.document });
      if (!moved.ok) {
        if (!isTold) this.refused = moved.error;
        return moved.error;
      }
      const { record, view } = moved.value;
      const saved = await jobRepository.save(record, before.events.length);
      if (saved.events.length !== record.events.length) await this.#show(saved);
      else this.#take(saved, view);
      return undefined;
    }).finally(() => (this.#isTaking = false));
  }

  /** Begins a job that was put together on the form. */
  begin(view: JobView, onSaved: (id: string) => void): void {
    void this.#do("Saving the job", async () => {
      this.#leave();
      this.#take(await jobRepository.save(view.record, 0), ok(view));
      onSaved(view.record.id);
    });
  }

  /** Leaves the job, after it was deleted. */
  close(): void {
    void this.#do("", () => Promise.resolve(this.#leave()));
  }

  #leave(): void {
    this.record = undefined;
    this.view = undefined;
    this.refusal = undefined;
    this.refused = undefined;
    this.missing = undefined;
    this.news = "";
  }

  async #hear(kind: "saved" | "removed"): Promise<void> {
    const { record } = this;
    if (!record) return;
    if (kind === "removed") {
      this.news = "This job was deleted in another window. The next step in this window stores it again.";
      return;
    }
    const loaded = await jobRepository.load(record.id);
    if (typeof loaded === "string") return;
    const joined = mergeRecords(record, loaded);
    if (joined.events.length === record.events.length) return;
    await this.#show(joined);
    this.news = "Another window continued this job. Its entries are in the job log.";
  }

  async #show(record: JobRecord, check?: string): Promise<void> {
    const { machine } = this.#desk();
    this.missing = undefined;
    if (this.record?.id !== record.id) this.view = undefined;
    this.record = record;
    if (!machine) return;
    const request = { record, ...(check !== undefined && { check }) };
    this.#take(record, await machineClient.ask("job-view", request, { document: machine.document }));
  }

  #take(record: JobRecord, view: Result<JobView, JobRefusal>): void {
    this.record = record;
    this.#viewed = this.#desk().machine;
    this.view = view.ok ? view.value : undefined;
    this.refusal = view.ok ? undefined : view.error;
  }

  #do<Value>(doing: string, work: () => Promise<Value>): Promise<Value | undefined> {
    const next = this.#queue.then(async () => {
      this.doing = doing;
      if (doing !== "") {
        this.fault = "";
        this.refused = undefined;
        this.news = "";
      }
      try {
        return await work();
      } catch (fault) {
        this.fault = faultNet.tell(fault, doing === "" ? "looking at a job" : doing);
        return undefined;
      } finally {
        this.doing = "";
      }
    });
    this.#queue = next;
    return next;
  }
}

/** The one job that is open. */
export const jobPageState = new JobPageState();
