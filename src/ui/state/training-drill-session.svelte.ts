import { gradeDrill } from "../../application/index.ts";
import type { Drill, DrillGrade } from "../../training/index.ts";
import type { TrainingTask } from "../../job-records/index.ts";
import type { TrainingState } from "./training.svelte.ts";
import { workOn } from "./training-work.ts";

/** An answer that was graded. */
export interface Answered {
  readonly drill: string;
  readonly picked: readonly string[];
}

/** A row of drills, asked one after the other. Those of an exercise are kept on the device; a repetition only moves its cards. */
export class DrillSession {
  drills = $state.raw<readonly Drill[]>([]);
  answers = $state.raw<readonly Answered[]>([]);
  picked = $state.raw<readonly string[]>([]);
  /** How the answer was; undefined while the question is open. */
  grade = $state.raw<DrillGrade>();
  problem = $state("");
  /** Which drill is asked, from 0; as many as there are once all were asked. */
  at = $state(0);
  isLoading = $state(true);

  readonly task: TrainingTask | undefined;
  readonly #desk: TrainingState;

  readonly drill = $derived<Drill | undefined>(this.drills[this.at]);
  readonly isOver = $derived(!this.isLoading && this.drills.length > 0 && this.at >= this.drills.length);
  readonly wrong = $derived<readonly Drill[]>(this.drills.filter((drill) => this.#isWrong(drill)));
  readonly points = $derived(
    Math.round((1000 * (this.answers.length - this.wrong.length)) / Math.max(1, this.drills.length)) / 10,
  );

  constructor(ofPage: TrainingState, task: TrainingTask | undefined) {
    this.#desk = ofPage;
    this.task = task;
  }

  /** Generates the drills of the exercise, and goes on where it was left. */
  async load(): Promise<void> {
    if (this.task?.kind !== "code") return;
    const result = await this.#desk.ask("drills", this.task.code);
    this.isLoading = false;
    if (!result.ok) this.problem = result.error.message;
    else if (result.value.drills.length === 0) this.problem = "This machine has no drills of this kind.";
    else {
      this.drills = result.value.drills;
      const { started, done } = this.#desk.progress;
      const work = workOn(started, this.task) ?? workOn(done, this.task);
      if (work?.kind === "drills") this.answers = work.answers;
      this.at = this.answers.length;
    }
  }

  /** Asks these drills, such as what is due for repetition. */
  use(drills: readonly Drill[]): void {
    this.drills = drills;
    this.isLoading = false;
  }

  /** Picks an item, or takes it back. */
  pick(id: string): void {
    const { drill } = this;
    if (!drill || this.grade) return;
    if (!drill.pick.isMany) this.picked = [id];
    else this.picked = this.picked.includes(id) ? this.picked.filter((each) => each !== id) : [...this.picked, id];
  }

  /** Grades the answer at once. */
  check(): void {
    const { drill } = this;
    if (!drill || this.grade || this.picked.length === 0) return;
    this.grade = gradeDrill(drill, this.picked);
    this.answers = [...this.answers, { drill: drill.id, picked: this.picked }];
    this.#desk.keepAnswer(drill.build, drill.id, this.grade.isRight);
    if (!this.task) return;
    const answers = this.answers.map((each) => ({ drill: each.drill, picked: [...each.picked] }));
    const work = { kind: "drills" as const, task: this.task, answers, points: this.points };
    if (answers.length < this.drills.length) this.#desk.keepStarted(work);
    else this.#desk.keepDone(work);
  }

  next(): void {
    this.at = this.answers.length;
    this.picked = [];
    this.grade = undefined;
  }

  /** Asks all again from the first. */
  again(): void {
    this.answers = [];
    this.next();
  }

  #isWrong(drill: Drill): boolean {
    const answer = this.answers.find((each) => each.drill === drill.id);
    return answer !== undefined && !gradeDrill(drill, answer.picked).isRight;
  }
}
