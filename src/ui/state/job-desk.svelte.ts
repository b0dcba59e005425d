import { machineOf } from "../../diagnosis/index.ts";
import type { Harness } from "../../model/index.ts";
import { foldRecord, joinRecords, type GivenReading, type JobFacts, type JobRecord } from "../../records/index.ts";
import type { JobStep, NotedEvent } from "../worker/job-messages.ts";
import type { JobShown } from "../worker/job-shown.ts";
import { stampNow } from "./job-clock.ts";
import { jobPlanner } from "./job-planner.ts";
import { jobShelf } from "./job-shelf.svelte.ts";
import { jobFaultWords } from "./job-words.ts";
import { desk, type Desk } from "./desk.svelte.ts";
import { faultNet } from "./fault-net.svelte.ts";

/** How the open machine goes with a job: the very data, other data of the same machine, or another machine. */
export type MachineFit = "same" | "changed" | "other";

/** The job that is open. Every step is saved before it is shown; steps are taken one after the other. */
export class JobDesk {
  record = $state.raw<JobRecord>();
  shown = $state.raw<JobShown>();
  /** What is being worked out; empty while a person is at the turn. */
  doing = $state("");
  /** Why the last step was not taken. */
  fault = $state("");
  /** What another window did. */
  news = $state("");
  /** The id that was asked for and could not be opened, with the reason. */
  missing = $state.raw<{ readonly id: string; readonly reason: string }>();
  /** Key of a check that was chosen in place of the proposed one. */
  chosen = $state<string>();
  /** Jobs that go on with changed data because the person said so. */
  #goesOn = $state.raw<readonly string[]>([]);

  readonly facts = $derived<JobFacts | undefined>(this.record && foldRecord(this.record));
  readonly harness = $derived<Harness | undefined>(
    this.record && this.#desk().machine?.harness(this.record.machine.build.id),
  );
  readonly fit = $derived<MachineFit>(this.#fit());

  #queue: Promise<void> = Promise.resolve();
  #isTaking = false;

  constructor() {
    jobShelf.listen(({ id, kind }) => {
      if (id === this.record?.id) void this.#do("", () => this.#hear(kind));
    });
  }

  #desk(): Desk {
    return desk;
  }

  #fit(): MachineFit {
    const { machine } = this.#desk();
    if (!this.record || !machine || !this.harness) return "other";
    const { contentHash, machine: name } = machineOf(this.harness);
    if (contentHash === this.record.machine.contentHash || this.#goesOn.includes(this.record.id)) return "same";
    return name === this.record.machine.machine ? "changed" : "other";
  }

  /** Opens a job; nothing happens if it is open. */
  open(id: string): void {
    if (this.record?.id === id) return;
    void this.#do("Opening the job", async () => {
      const loaded = await jobShelf.load(id);
      this.#leave();
      if (typeof loaded === "string") this.missing = { id, reason: loaded };
      else await this.#show(loaded);
    });
  }

  /** Works the open job out anew, after another machine was opened. */
  refresh(): void {
    const { record } = this;
    if (record && this.fit === "same" && !this.shown) void this.#do("Opening the job", () => this.#show(record));
  }

  /** Goes on with the data that is open, though it has changed since the job was begun. */
  goOn(): void {
    const { record } = this;
    if (!record) return;
    this.#goesOn = [...this.#goesOn, record.id];
    void this.#do("Opening the job", () => this.#show(record));
  }

  /** Puts a check in the place of the proposed one; undefined goes back to the proposed one. */
  choose(key: string | undefined): void {
    const { record } = this;
    if (!record) return;
    void this.#do("Getting the check ready", async () => {
      this.chosen = key;
      await this.#show(record);
    });
  }

  take(key: string, given: GivenReading): void {
    // Whoever presses twice has read once.
    if (this.#isTaking) return;
    this.#isTaking = true;
    void this.step({ kind: "reading", key, given }, "Narrowing the suspects").then(() => (this.#isTaking = false));
  }

  note(...events: readonly NotedEvent[]): void {
    void this.step({ kind: "note", events }, "Saving");
  }

  /** Takes a step: worked out, saved, then shown. The promise holds when it is done, well or not. */
  step(step: JobStep, doing = "Working it out"): Promise<void> {
    return this.#do(doing, async () => {
      const { machine } = this.#desk();
      const before = this.record;
      if (!before || !machine) return;
      const made = await jobPlanner.ask(machine.document, { kind: "step", record: before, step, stamp: stampNow() });
      if (!made.ok) {
        this.fault = jobFaultWords(made.error);
        return;
      }
      this.chosen = undefined;
      await this.#show(await jobShelf.save(made.value, before.events.length));
    });
  }

  /** Begins a job that was put together on the form. */
  begin(record: JobRecord, onSaved: (id: string) => void): void {
    void this.#do("Saving the job", async () => {
      this.#leave();
      await this.#show(await jobShelf.save(record, 0));
      onSaved(record.id);
    });
  }

  /** Leaves the job, after it was deleted. */
  close(): void {
    void this.#do("", () => Promise.resolve(this.#leave()));
  }

  #leave(): void {
    this.record = undefined;
    this.shown = undefined;
    this.chosen = undefined;
    this.missing = undefined;
    this.news = "";
  }

  async #hear(kind: "saved" | "removed"): Promise<void> {
    const { record } = this;
    if (!record) return;
    if (kind === "removed") {
      this.news = "This job was deleted in another window. The next step here stores it again.";
      return;
    }
    const loaded = await jobShelf.load(record.id);
    if (typeof loaded === "string") return;
    const joined = joinRecords(record, loaded);
    if (joined.events.length === record.events.length) return;
    await this.#show(joined);
    this.news = "Another window went on with this job; what it wrote down is in the log.";
  }

  async #show(record: JobRecord): Promise<void> {
    const { machine } = this.#desk();
    this.missing = undefined;
    if (this.record?.id !== record.id) this.shown = undefined;
    if (!machine || !this.#fits(record)) {
      this.record = record;
      return;
    }
    const { chosen } = this;
    const reply = await jobPlanner.ask(machine.document, {
      kind: "show",
      record,
      ...(chosen !== undefined && { chosen }),
    });
    this.record = record;
    this.shown = reply.ok ? reply.value : undefined;
    if (!reply.ok) this.fault = jobFaultWords(reply.error);
  }

  #fits(record: JobRecord): boolean {
    const harness = this.#desk().machine?.harness(record.machine.build.id);
    if (!harness) return false;
    return machineOf(harness).contentHash === record.machine.contentHash || this.#goesOn.includes(record.id);
  }

  #do(doing: string, work: () => Promise<void>): Promise<void> {
    this.#queue = this.#queue.then(async () => {
      this.doing = doing;
      if (doing !== "") {
        this.fault = "";
        this.news = "";
      }
      try {
        await work();
      } catch (fault) {
        this.fault = faultNet.tell(fault, doing === "" ? "looking at a job" : doing);
      }
      this.doing = "";
    });
    return this.#queue;
  }
}

/** The one job that is open. */
export const jobDesk = new JobDesk();
