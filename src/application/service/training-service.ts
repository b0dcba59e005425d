import { ok, type Result } from "../../base/index.ts";
import {
  causesAt,
  drillsOfCode,
  foldExercise,
  harnessCheck,
  makeDrill,
  makeGrader,
  makeExercise,
  newTaskList,
  openTaskList,
  scoreExercise,
  stepExercise,
  type Drill,
  type DrillSet,
  type GradedResult,
  type Grader,
  type ExerciseProblem,
  type ExerciseScore,
  type ExerciseState,
  type NewTaskList,
  type OpenedTasks,
  type PathStep,
  type PossibleCause,
  type ReadyExercise,
  type RepetitionCard,
  type TaskProblem,
} from "../../training/index.ts";
import type { ExerciseEvent, TrainingProblem, TrainingTask } from "../../job-records/index.ts";
import type { Item } from "../../connectivity/index.ts";
import type { Machine } from "../open-machine.ts";
import type { TaskContent } from "../training/tasks-report.ts";

/** A call: what is asked, and what is answered. Both are plain data. */
export interface Call<Request, Reply> {
  readonly request: Request;
  readonly reply: Reply;
}

/** A hunt as it is sent: all but the machine, which whoever asks has. */
export type SentExercise = Omit<ExerciseState, "harness">;

/** A hunt to be opened, with what was done in it already. */
export interface WantedExercise {
  readonly task: TrainingTask;
  readonly asksHypothesis: boolean;
  readonly events: readonly ExerciseEvent[];
}

/** The score of a hunt beside what the planner did with the same task. */
export interface SentScore {
  readonly score: ExerciseScore;
  readonly planner: {
    readonly total: number;
    readonly minutes: number;
    readonly isFound: boolean;
    readonly path: readonly PathStep[];
  };
  /** What was hidden, and what mends it. */
  readonly cause: { readonly label: string; readonly repair: string };
}

/** What is asked of practice. The hunt that was opened last is remembered. */
export interface TrainingCalls {
  /** The fingerprint of the harness data. */
  readonly "practice-open": Call<undefined, string>;
  readonly exercise: Call<WantedExercise, Result<SentExercise, ExerciseProblem>>;
  readonly "exercise-step": Call<ExerciseEvent, SentExercise | undefined>;
  /** The ways in which an item may be the cause. */
  readonly "exercise-causes": Call<Item, readonly PossibleCause[]>;
  /** Lets the planner go through the task of the open hunt beforehand. */
  readonly "exercise-plan": Call<undefined, undefined>;
  readonly "exercise-score": Call<WantedExercise, Result<SentScore, ExerciseProblem>>;
  readonly drills: Call<string, Result<DrillSet, { readonly message: string }>>;
  readonly "drills-again": Call<readonly RepetitionCard[], readonly Drill[]>;
  readonly "task-preview": Call<TrainingTask, Result<TaskContent, { readonly message: string }>>;
  readonly "list-write": Call<NewTaskList, Result<string, readonly TaskProblem[]>>;
  readonly "list-open": Call<string, Result<OpenedTasks, readonly TrainingProblem[]>>;
  readonly grade: Call<string, Result<GradedResult, readonly TrainingProblem[]>>;
}

interface OpenExercise {
  readonly key: string;
  readonly wanted: TrainingTask;
  readonly ready: ReadyExercise;
  readonly exercise: ExerciseState;
}

/** Practice on one machine: hunts, drills, lists, grades. */
export class TrainingService {
  readonly #machine: Machine;
  readonly #grader: Grader;
  #open: OpenExercise | undefined;

  constructor(machine: Machine) {
    this.#machine = machine;
    this.#grader = makeGrader(machine.document);
  }

  check(): string {
    return harnessCheck(this.#machine.document);
  }

  step(event: ExerciseEvent): SentExercise | undefined {
    if (this.#open) this.#open = { ...this.#open, exercise: stepExercise(this.#open.exercise, event) };
    return this.#open && sent(this.#open.exercise);
  }

  causes(item: Item): readonly PossibleCause[] {
    return this.#open ? causesAt(this.#open.ready.harness, item) : [];
  }

  plan(): undefined {
    if (this.#open) this.#grader.plannerOf(this.#open.ready, this.#open.wanted);
    return undefined;
  }

  drills(code: string): Result<DrillSet, { readonly message: string }> {
    return drillsOfCode(this.#machine.document, code);
  }

  again(cards: readonly RepetitionCard[]): readonly Drill[] {
    return cards.flatMap(({ build, drill }) => {
      const harness = this.#machine.harness(build);
      return (harness && makeDrill(harness, drill)) ?? [];
    });
  }

  writeList(list: NewTaskList): Result<string, readonly TaskProblem[]> {
    return newTaskList(this.#machine.document, list);
  }

  openList(text: string): Result<OpenedTasks, readonly TrainingProblem[]> {
    return openTaskList(this.#machine.document, text);
  }

  grade(text: string): Result<GradedResult, readonly TrainingProblem[]> {
    return this.#grader.grade(text);
  }

  openExercise({ task, asksHypothesis, events }: WantedExercise): Result<SentExercise, ExerciseProblem> {
    const key = JSON.stringify([task, asksHypothesis]);
    if (this.#open?.key !== key) {
      const made = makeExercise(this.#machine.document, task, asksHypothesis);
      if (!made.ok) return made;
      const { harness, task: hidden } = made.value;
      this.#open = { key, wanted: task, ready: made.value, exercise: foldExercise(harness, hidden, []) };
    }
    const { harness, task: hidden } = this.#open.ready;
    this.#open = { ...this.#open, exercise: foldExercise(harness, hidden, events) };
    return ok(sent(this.#open.exercise));
  }

  score(wanted: WantedExercise): Result<SentScore, ExerciseProblem> {
    const opened = this.openExercise(wanted);
    if (!opened.ok) return opened;
    if (!this.#open) throw new RangeError("Cannot score: no exercise is open");
    const { ready, exercise } = this.#open;
    const planner = this.#grader.plannerOf(ready, wanted.task);
    const its = scoreExercise(planner.exercise, planner);
    const { label, repair } = ready.task.hidden.candidate;
    return ok({
      score: scoreExercise(exercise, planner),
      planner: {
        total: its.total,
        minutes: planner.exercise.minutes,
        isFound: planner.exercise.isRepaired,
        path: its.path,
      },
      cause: { label, repair },
    });
  }
}

function sent({ harness: _, ...rest }: ExerciseState): SentExercise {
  return rest;
}
