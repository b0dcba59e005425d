import type { Level, Topic } from "../../training/index.ts";
import type { TrainingTask } from "../../job-records/index.ts";
import { type TaskContent, titleOf, writeTaskCode } from "../../application/index.ts";
import { app } from "./app.svelte.ts";
import { saveText } from "./data-save.ts";
import { trainingState, type TrainingState } from "./training.svelte.ts";
import { drawNumber } from "./training-draw.ts";
import { trainingLink } from "./training-place.ts";
import { readUnfinishedList, writeUnfinishedList } from "./training-store.ts";

/** An exercise on the list that is being made, with what its trainer sees of it. */
export interface ListedTask {
  readonly id: number;
  readonly task: TrainingTask;
  readonly preview: TaskContent;
}

/** What kind of exercises are to be generated, and how many. */
export interface WantedTasks {
  readonly topic: Topic;
  readonly level: Level;
  readonly build: string;
  readonly count: number;
}

type Written = Extract<TrainingTask, { kind: "written" }>;

/** Numbers tried for each exercise that is wanted: with some of them no fault shows. */
const TRIES = 4;
/** Most exercises on a list, as its form has it. */
const MOST = 200;

/** The exercise list a trainer is making. As far as it has come it is kept on this device, for each machine one. */
export class ListMaker {
  title = $state("");
  asksHypothesis = $state(true);
  tasks = $state.raw<readonly ListedTask[]>([]);
  problem = $state("");
  isBusy = $state(false);
  /** The link of the list, once it was asked for. */
  link = $state("");

  readonly #desk: TrainingState;
  #count = 0;
  /** The machine of the list, by its check; undefined while what is kept is still being read. */
  #of: string | undefined;

  constructor(ofPage: TrainingState) {
    this.#desk = ofPage;
  }

  /** Goes on with the list that is kept for a machine; an exercise that this program no longer takes is named. */
  async takeUp(check: string): Promise<void> {
    if (this.#of === check || this.isBusy) return;
    this.#of = undefined;
    const kept = readUnfinishedList(check);
    this.title = kept?.title ?? "";
    this.asksHypothesis = kept?.asksHypothesis ?? true;
    this.tasks = [];
    this.link = "";
    const refused: string[] = [];
    await this.#work(async () => {
      for (const task of kept?.tasks ?? []) if (!(await this.#add(task))) refused.push(this.problem);
    });
    this.problem = refused.join(" ");
    this.#of = check;
  }

  /** Keeps the list as it stands. */
  keep(): void {
    const { title, asksHypothesis } = this;
    const tasks = this.tasks.map(({ task }) => task);
    if (this.#of !== undefined) writeUnfinishedList(this.#of, { title, asksHypothesis, tasks });
  }

  /** Generates exercises by chance and puts them on the list. */
  async draw({ count, ...wanted }: WantedTasks): Promise<void> {
    const { machine } = this.#desk;
    if (!machine) return;
    await this.#work(async () => {
      let tries = count * TRIES;
      for (let made = 0; made < count && tries > 0 && this.tasks.length < MOST; tries--) {
        const code = writeTaskCode(machine.document, { ...wanted, number: drawNumber() });
        if (await this.#add({ kind: "code", code })) made++;
      }
    });
  }

  /** Puts a fault on the list that the trainer wrote. */
  async write(task: Written): Promise<boolean> {
    let isAdded = false;
    await this.#work(async () => {
      isAdded = await this.#add(task);
    });
    return isAdded;
  }

  /** Puts an exercise on the list by its code. */
  async take(code: string): Promise<void> {
    await this.#work(async () => {
      await this.#add({ kind: "code", code: code.trim().toUpperCase() });
    });
  }

  remove(id: number): void {
    this.tasks = this.tasks.filter((each) => each.id !== id);
    this.link = "";
  }

  /** Takes an exercise one place up or down. */
  move(id: number, by: 1 | -1): void {
    const from = this.tasks.findIndex((each) => each.id === id);
    const moved = this.tasks[from];
    const others = this.tasks.filter((each) => each.id !== id);
    const to = from + by;
    if (moved && to >= 0 && to <= others.length) this.tasks = [...others.slice(0, to), moved, ...others.slice(to)];
    this.link = "";
  }

  async save(): Promise<void> {
    const text = await this.#text();
    const name = this.title.trim().replace(/[^\p{L}\p{N}]+/gu, "-") || "tasks";
    if (text !== undefined) saveText(`${name}.ohmtasks.json`, "application/json", text);
  }

  async makeLink(): Promise<void> {
    const text = await this.#text();
    // Line breaks and blanks of the file would only make the link longer.
    if (text === undefined || app.mark === undefined) return;
    this.link = trainingLink({ kind: "list", text: JSON.stringify(JSON.parse(text)) }, app.mark);
  }

  async #text(): Promise<string | undefined> {
    let text: string | undefined;
    await this.#work(async () => {
      const list = {
        title: this.title.trim() || "Exercise list",
        asksHypothesis: this.asksHypothesis,
        tasks: this.tasks.map(({ task }) => task),
      };
      const result = await this.#desk.ask("list-write", list);
      if (result.ok) text = result.value;
      else this.problem = result.error.map(({ at, message }) => `Exercise ${at + 1}: ${message}.`).join(" ");
    });
    return text;
  }

  async #add(task: TrainingTask): Promise<boolean> {
    const result = await this.#desk.ask("task-preview", task);
    if (!result.ok) {
      this.problem = `${titleOf(task)}: ${result.error.message}.`;
      return false;
    }
    this.problem = "";
    this.link = "";
    this.tasks = [...this.tasks, { id: ++this.#count, task, preview: result.value }];
    return true;
  }

  async #work(doing: () => Promise<void>): Promise<void> {
    this.isBusy = true;
    this.problem = "";
    try {
      await doing();
    } catch (fault) {
      this.#desk.fail(fault);
    } finally {
      this.isBusy = false;
    }
  }
}

/** The one list that is being made. */
export const listMaker = new ListMaker(trainingState);
