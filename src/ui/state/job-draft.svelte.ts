import type { Harness } from "../../harness-model/index.ts";
import type { JobRefusal, JobView } from "../../application/index.ts";
import { CallDropped, machineClient } from "../worker/machine-client.ts";
import { newJobId, stampNow } from "./job-clock.ts";
import { EMPTY_JOB, requestOf, type DraftCode, type DraftData, type DraftSymptom } from "./job-draft-data.ts";
import { forgetDraft, keepDraft, keptDraft } from "./job-draft-memory.ts";
import { app, type AppState } from "./app.svelte.ts";
import { faultNet } from "./fault-net.svelte.ts";

/** What is typed is looked through after this pause. */
const PAUSE_MS = 250;

/** The form of a new job. What is typed is kept on the device, so that closing the page loses nothing. */
export class JobDraft {
  data = $state.raw<DraftData>(EMPTY_JOB);
  /** What would be asked first. */
  preview = $state.raw<JobView["next"]>();
  /** Why no job can be started with this. */
  refusal = $state.raw<JobRefusal>();
  isLooking = $state(false);

  #timer: number | undefined;
  #count = 0;
  #machine = "";

  readonly harness = $derived<Harness | undefined>(this.#desk().machine?.harness(this.data.build));
  readonly isReady = $derived(
    this.data.build !== "" && (this.data.codes.length > 0 || this.data.symptoms.some(({ is }) => is === "bad")),
  );

  #desk(): AppState {
    return app;
  }

  /** Takes up the form where it was left; called when the form is opened. */
  start(): void {
    const { machine, build } = this.#desk();
    if (!machine) return;
    const { title, machine: name } = machine.document.about;
    const key = `${name} ${title}`;
    if (this.#machine !== key) {
      this.#machine = key;
      this.data = keptDraft(key) ?? EMPTY_JOB;
    }
    const builds = machine.document.builds.map(({ id }) => String(id));
    if (!builds.includes(this.data.build)) this.data = { ...this.data, build: "" };
    const only = builds.length === 1 ? builds[0] : build;
    if (this.data.build === "" && only !== undefined) this.data = { ...this.data, build: only };
    this.#look(0);
  }

  /** Changes the form. */
  edit(change: Partial<DraftData>): void {
    this.data = { ...this.data, ...change };
    keepDraft(this.#machine, this.data);
    const isWordsOnly = Object.keys(change).every((name) => name === "words");
    if (!isWordsOnly) this.#look(PAUSE_MS);
  }

  setCode(code: string, status: DraftCode["status"] | undefined): void {
    const others = this.data.codes.filter((each) => each.code !== code);
    this.edit({ codes: status === undefined ? others : [...others, { code, status }] });
  }

  setSymptom(item: string, is: DraftSymptom["is"] | undefined): void {
    const others = this.data.symptoms.filter((each) => each.item !== item);
    this.edit({ symptoms: is === undefined ? others : [...others, { item, is }] });
  }

  /** Changes a starting probability; a factor of 1 undoes the change. */
  weigh(of: string, factor: number): void {
    const others = this.data.priors.filter((each) => each.of !== of);
    this.edit({ priors: factor === 1 ? others : [...others, { of, factor, origin: "judged in the workshop" }] });
  }

  clear(): void {
    const { build, lacking } = this.data;
    forgetDraft(this.#machine);
    this.data = { ...EMPTY_JOB, build, lacking };
    keepDraft(this.#machine, this.data);
    this.#look(0);
  }

  /** The job that is put together; undefined, and a reason beside the form, if there can be none. */
  async begin(): Promise<JobView | undefined> {
    const { machine } = this.#desk();
    if (!machine || !this.isReady) return undefined;
    return this.#begin(newJobId());
  }

  #look(pauseMs: number): void {
    window.clearTimeout(this.#timer);
    this.#count += 1;
    const { machine } = this.#desk();
    if (!machine || !this.isReady) {
      this.preview = undefined;
      this.refusal = undefined;
      this.isLooking = false;
      return;
    }
    this.isLooking = true;
    const count = this.#count;
    this.#timer = window.setTimeout(() => void this.#ask(count), pauseMs);
  }

  async #ask(count: number): Promise<void> {
    try {
      const view = await this.#begin("preview");
      if (count === this.#count) this.preview = view?.next;
    } catch (fault) {
      if (!(fault instanceof CallDropped)) faultNet.tell(fault, "looking ahead in a new job");
    }
    if (count === this.#count) this.isLooking = false;
  }

  async #begin(id: string): Promise<JobView | undefined> {
    const { machine } = this.#desk();
    if (!machine) return undefined;
    const { document } = machine;
    const request = { request: requestOf(this.data, document, id), stamp: stampNow() };
    const started = await machineClient.ask("job-begin", request, { document, lane: "job-begin" });
    this.refusal = started.ok || started.error.kind !== "job-refused" ? undefined : started.error;
    return started.ok ? started.value : undefined;
  }
}

/** The one form of the page. */
export const jobDraft = new JobDraft();
