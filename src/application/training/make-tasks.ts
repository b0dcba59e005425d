import { err, ok, type Result } from "../../base/index.ts";
import {
  makeExercise,
  MOST_NUMBER,
  newTaskList,
  writeTaskCode,
  type DrillKind,
  type Level,
} from "../../training/index.ts";
import { readTaskList, type TrainingTask, type TaskList } from "../../job-records/index.ts";
import type { FileProblem } from "../import/file-problem.ts";
import type { Machine } from "../open-machine.ts";
import { trainingFileProblem, taskProblem } from "./training-problem.ts";
import type { WrittenFault } from "./written-faults.ts";

/** What an exercise list is to hold. */
export interface TaskWish {
  readonly title: string;
  readonly asksHypothesis: boolean;
  /** Build and level of the tasks that are drawn. */
  readonly build: string;
  readonly level: Level;
  /** Number of the first task; another number gives other tasks. */
  readonly first: number;
  /** How many sets of drills, and of which kinds in turn; none means all kinds mixed. */
  readonly drills: number;
  readonly kinds: readonly DrillKind[];
  /** How many fault-finding exercises, no fault twice. */
  readonly exercises: number;
  readonly written: readonly WrittenFault[];
}

/** A task list that is ready to be saved. */
export interface MadeTasks {
  readonly text: string;
  readonly list: TaskList;
}

/** After so many codes in a row that hide nothing new it is said that there are no more. */
const MOST_REPEATS = 40;

/**
 * Makes a task list: drills and hunts drawn by number, and faults that a trainer wrote. The same machine and wish give the same list.
 *
 * @param machine The machine.
 * @param wish What it is to hold.
 * @returns The list; or every task that cannot be made, with the reason and the place it was written at.
 * @throws RangeError if the machine has no such build.
 */
export function makeTasks({ document }: Machine, wish: TaskWish): Result<MadeTasks, readonly FileProblem[]> {
  const { title, asksHypothesis, written } = wish;
  const drawn = [...drillTasks({ document }, wish), ...exerciseTasks({ document }, wish)];
  const wanted = wish.drills + wish.exercises;
  const tasks = [...drawn, ...written.map(({ task }) => task)];
  if (drawn.length < wanted) return err([tooFew(wish, drawn.length - wish.drills)]);
  const made = newTaskList(document, { title, asksHypothesis, tasks });
  if (!made.ok) {
    const placeOf = (at: number): FileProblem["at"] => written[at - drawn.length]?.at ?? { path: `tasks[${at}]` };
    return err(
      made.error.map(({ at, message }) => taskProblem(placeOf(at), message, "Correct the row, or leave it out")),
    );
  }
  const read = readTaskList(made.value);
  if (!read.ok) return err(read.error.map((problem) => trainingFileProblem("exercise list", problem)));
  return ok({ text: made.value, list: read.value.content });
}

function drillTasks({ document }: Pick<Machine, "document">, wish: TaskWish): readonly TrainingTask[] {
  const { drills, kinds, level, build, first } = wish;
  return Array.from({ length: drills }, (_, at) => {
    const topic = kinds[at % Math.max(1, kinds.length)] ?? "drills";
    return {
      kind: "code",
      code: writeTaskCode(document, { topic, level, build, number: first + at }),
      title: `Drills ${at + 1}`,
    };
  });
}

function exerciseTasks({ document }: Pick<Machine, "document">, wish: TaskWish): readonly TrainingTask[] {
  const { exercises, level, build, first } = wish;
  const tasks: TrainingTask[] = [];
  const met = new Set<string>();
  let repeats = 0;
  for (let number = first; tasks.length < exercises && number <= MOST_NUMBER && repeats < MOST_REPEATS; number++) {
    const code = writeTaskCode(document, { topic: "exercise", level, build, number });
    const ready = makeExercise(document, { kind: "code", code });
    // Where one code of a level finds no fault that shows, none does.
    if (!ready.ok) break;
    const { candidate } = ready.value.task.hidden;
    repeats = met.has(candidate.id) ? repeats + 1 : 0;
    if (repeats === 0) tasks.push({ kind: "code", code, title: `Fault-finding exercise ${tasks.length + 1}` });
    met.add(candidate.id);
  }
  return tasks;
}

function tooFew({ exercises, level, build }: TaskWish, found: number): FileProblem {
  const message = `${exercises} fault-finding exercises of level ${level} are wanted for variant ${build}; ${found} with different faults are possible`;
  const hint = "Reduce their number, choose another level, or start at another number";
  return { severity: "error", code: "too-few-faults", at: {}, message, hint };
}
