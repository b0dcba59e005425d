import type { OpenedTasks, RepetitionCard } from "../../training/index.ts";
import type { TrainingTask } from "../../job-records/index.ts";
import {
  dueCards,
  type Machine,
  type MachineCalls,
  newResult,
  repeatAfter,
  type ReplyOf,
  type RequestOf,
} from "../../application/index.ts";
import { machineClient } from "../worker/machine-client.ts";
import { saveText } from "./data-save.ts";
import { page } from "./page.svelte.ts";
import { writeTrainingPlace, type TrainingPlace } from "./training-place.ts";
import {
  NO_PROGRESS,
  readName,
  readProgress,
  writeName,
  writeProgress,
  type TrainingProgress,
} from "./training-store.ts";
import { dayToday, withStarted, withDone, withoutStarted } from "./training-work.ts";
import { faultNet } from "./fault-net.svelte.ts";

type Work = TrainingProgress["done"][number];

/** What the training page knows: the machine of the exercises, and what was done on this device. */
export class TrainingState {
  name = $state(readName());
  progress = $state.raw<TrainingProgress>(NO_PROGRESS);
  /** Fingerprint of the harness data; undefined until the machine is open. */
  check = $state<string>();
  /** Why nothing is kept, where nothing is. */
  notKept = $state("");
  /** The exercise list that is open, and why one could not be opened. */
  list = $state.raw<OpenedTasks>();
  listProblem = $state("");
  failure = $state("");
  /** Whether exercises that a person generates ask for a hypothesis before each action. */
  asksHypothesis = $state(true);

  machine = $state.raw<Machine>();
  #mayWrite = true;

  readonly today = dayToday();
  readonly due = $derived<readonly RepetitionCard[]>(
    this.check === undefined ? [] : dueCards(this.progress.cards, this.today, this.check),
  );

  /** Asks about the machine of the exercises. */
  ask<Name extends keyof MachineCalls>(name: Name, request: RequestOf<Name>): Promise<ReplyOf<Name>> {
    if (!this.machine) throw new RangeError("Cannot start the training: no machine is open");
    return machineClient.ask(name, request, { document: this.machine.document });
  }

  /** Uses this machine for the exercises from now on; the same machine changes nothing. */
  follow(machine: Machine): void {
    if (this.machine === machine) return;
    this.machine = machine;
    this.check = undefined;
    this.list = undefined;
    this.listProblem = "";
    this.ask("practice-open", undefined).then(
      (check) => {
        if (this.machine === machine) this.#readStored(check);
      },
      (fault: unknown) => this.fail(fault),
    );
  }

  /** Says that the program failed; what was done is kept. */
  fail(fault: unknown): void {
    this.failure = faultNet.tell(fault, "training");
  }

  go(place: TrainingPlace): void {
    this.failure = "";
    page.open("practice", writeTrainingPlace(place));
  }

  typeName(name: string): void {
    this.name = name.slice(0, 80);
    writeName(this.name);
  }

  keepStarted(work: Work): void {
    this.#keep(withStarted(this.progress, work));
  }

  keepDone(work: Work): void {
    this.#keep(withDone(this.progress, work));
  }

  dropStarted(task: TrainingTask): void {
    this.#keep(withoutStarted(this.progress, task));
  }

  /** Writes down how a drill was answered, for the day it comes again. */
  keepAnswer(build: string, drill: string, isRight: boolean): void {
    const harnessCheck = this.check;
    if (harnessCheck === undefined) return;
    const isIt = (each: RepetitionCard): boolean =>
      each.drill === drill && each.build === build && each.harnessCheck === harnessCheck;
    const before = this.progress.cards.find(isIt) ?? { drill, build, harnessCheck, box: 0, dueDay: 0 };
    const card = repeatAfter(before, isRight, this.today);
    const others = this.progress.cards.filter((each) => !isIt(each));
    this.#keep({ ...this.progress, cards: card ? [...others, card] : others });
  }

  /** Forgets all of the training on this machine, and the name. */
  forget(): void {
    this.typeName("");
    this.list = undefined;
    this.#keep(NO_PROGRESS);
  }

  /** Opens an exercise list that was handed out; its text is kept, so that it is there again the next time. */
  async openList(text: string): Promise<void> {
    try {
      const result = await this.ask("list-open", text);
      this.list = result.ok ? result.value : undefined;
      this.listProblem = result.ok ? "" : result.error.map(({ message }) => message).join("; ");
      if (result.ok) this.#keep({ ...this.progress, list: text });
    } catch (fault) {
      this.fail(fault);
    }
  }

  closeList(): void {
    this.list = undefined;
    this.listProblem = "";
    this.#keep({ ...this.progress, list: "" });
  }

  /** Hands out the result file. */
  saveResult(): void {
    if (!this.machine) return;
    const text = newResult(this.machine.document, this.name, this.progress.done);
    const name = this.name.trim().replace(/[^\p{L}\p{N}]+/gu, "-") || "result";
    saveText(`${name}.ohmresult.json`, "application/json", text);
  }

  #readStored(check: string): void {
    const stored = readProgress(check);
    this.#mayWrite = stored.kind !== "newer";
    this.progress = stored.kind === "read" ? stored.progress : NO_PROGRESS;
    this.notKept =
      stored.kind === "newer"
        ? "A newer version of this program saved the training on this device. It is left unchanged. Nothing is saved now. Use the newer version."
        : stored.kind === "unreadable"
          ? "The saved training on this device cannot be read. It is kept under another name. Training starts from the beginning."
          : "";
    this.check = check;
    if (this.progress.list !== "" && !page.place.startsWith("list~")) void this.openList(this.progress.list);
  }

  #keep(progress: TrainingProgress): void {
    this.progress = progress;
    if (this.check === undefined || !this.#mayWrite) return;
    if (!writeProgress(this.check, progress))
      this.notKept =
        "This device saves nothing for this page. Your work is lost when you close the page. Save the result file first.";
  }
}

/** The one training state of the page. */
export const trainingState = new TrainingState();
