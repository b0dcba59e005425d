import { classBySkill, classByTask, classCsv } from "../../application/index.ts";
import type { ClassTable, GradedResult } from "../../training/index.ts";
import { saveText } from "./data-save.ts";
import { trainingState, type TrainingState } from "./training.svelte.ts";
import { faultNet } from "./fault-net.svelte.ts";

/** A result file as it was handed in: graded, or what is wrong with it. */
export interface HandedIn {
  readonly id: number;
  readonly fileName: string;
  readonly graded: GradedResult | undefined;
  readonly problems: readonly string[];
}

/** Longest text of a file that is looked at, in bytes. */
const MOST_BYTES = 8 * 1024 * 1024;
/** Problems of one file that are shown. */
const MOST_PROBLEMS = 3;

/** The result files of a class. They are worked out again from what was done, on this device, and last as long as the page. */
export class ClassResultsState {
  files = $state.raw<readonly HandedIn[]>([]);
  view = $state<"task" | "skill">("task");
  /** Files that wait to be graded, the present one included. */
  waiting = $state(0);
  doing = $state("");

  readonly #desk: TrainingState;
  #count = 0;

  readonly graded = $derived<readonly GradedResult[]>(this.files.flatMap(({ graded }) => graded ?? []));
  readonly table = $derived<ClassTable>(this.view === "task" ? classByTask(this.graded) : classBySkill(this.graded));

  constructor(ofPage: TrainingState) {
    this.#desk = ofPage;
  }

  /** Takes result files beside those that are there. */
  async take(files: readonly File[]): Promise<void> {
    this.waiting += files.length;
    for (const file of files) {
      this.doing = file.name;
      const read = await this.#grade(file);
      this.files = [...this.files, { id: ++this.#count, fileName: file.name, ...read }];
      this.waiting--;
    }
  }

  remove(id: number): void {
    this.files = this.files.filter((each) => each.id !== id);
  }

  clear(): void {
    this.files = [];
  }

  saveCsv(): void {
    saveText(`class-by-${this.view}.csv`, "text/csv", classCsv(this.table));
  }

  async #grade(file: File): Promise<Pick<HandedIn, "graded" | "problems">> {
    if (file.size > MOST_BYTES) return { graded: undefined, problems: ["The file is too large for a result file"] };
    try {
      const result = await this.#desk.ask("grade", await file.text());
      if (result.ok) return { graded: result.value, problems: [] };
      const told = result.error.map(({ path, message }) => (path === "" ? message : `${path}: ${message}`));
      const more = told.length > MOST_PROBLEMS ? [`and ${told.length - MOST_PROBLEMS} more`] : [];
      return { graded: undefined, problems: [...told.slice(0, MOST_PROBLEMS), ...more] };
    } catch (fault) {
      return { graded: undefined, problems: [faultNet.tell(fault, "grading a result file")] };
    }
  }
}

/** The one class of the page. */
export const classResultsState = new ClassResultsState(trainingState);
