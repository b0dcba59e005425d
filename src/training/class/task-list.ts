import { err, ok, type Result } from "../../base/index.ts";
import type { HarnessDocument } from "../../harness-model/index.ts";
import {
  MOST_TASKS,
  TRAINING_VERSION,
  readTaskList,
  RESULT_FORMAT,
  TASK_LIST_FORMAT,
  writeTrainingResult,
  writeTaskList,
  type TrainingMachine,
  type TrainingProblem,
  type TrainingTask,
  type TrainingWork,
  type TaskList,
} from "../../job-records/index.ts";
import { harnessCheck, readTaskCode } from "../code/task-code.ts";
import { drillsOfCode } from "../drills/make-drill.ts";
import { makeExercise } from "../exercise/make-exercise.ts";

/** A task that cannot be made, by its place in the list, from 0. */
export interface TaskProblem {
  readonly at: number;
  readonly message: string;
}

/** A task list as opened: what can be done, and what is wrong with the rest. */
export interface OpenedTasks {
  readonly list: TaskList;
  readonly isIntact: boolean;
  readonly isSameHarness: boolean;
  readonly problems: readonly TaskProblem[];
}

/** Which harness data a file is made with. */
function trainingMachine(document: HarnessDocument): TrainingMachine {
  const { title, machine } = document.about;
  return { title, machine, harnessCheck: harnessCheck(document) };
}

/** What a trainer puts on a list. */
export interface NewTaskList {
  readonly title: string;
  readonly asksHypothesis: boolean;
  readonly tasks: readonly TrainingTask[];
}

/**
 * Writes a task list for a class, after trying whether every task can be made.
 *
 * @param list Title, whether hypotheses are asked for, tasks.
 * @returns The text of the file; or every task that cannot be made, with the reason.
 */
export function newTaskList(document: HarnessDocument, list: NewTaskList): Result<string, readonly TaskProblem[]> {
  const { length } = list.tasks;
  if (length === 0) return err([{ at: 0, message: "The list has no exercise" }]);
  if (length > MOST_TASKS) return err([{ at: MOST_TASKS, message: `A list has at most ${MOST_TASKS} exercises` }]);
  const problems = problemsOf(document, list.tasks);
  if (problems.length > 0) return err(problems);
  return ok(
    writeTaskList({
      format: TASK_LIST_FORMAT,
      version: TRAINING_VERSION,
      title: list.title.slice(0, 600),
      asksHypothesis: list.asksHypothesis,
      tasks: [...list.tasks],
      machine: trainingMachine(document),
    }),
  );
}

/** Opens a task list: all of it is given back, with what is wrong beside it, so that nothing is lost. */
export function openTaskList(document: HarnessDocument, text: string): Result<OpenedTasks, readonly TrainingProblem[]> {
  const read = readTaskList(text);
  if (!read.ok) return read;
  const { content, isIntact } = read.value;
  const isSameHarness = content.machine.harnessCheck === harnessCheck(document);
  return ok({ list: content, isIntact, isSameHarness, problems: problemsOf(document, content.tasks) });
}

/**
 * Writes the result file of a trainee.
 *
 * @param name What the trainee typed.
 * @param work What was done in each task.
 */
export function newResult(document: HarnessDocument, name: string, work: readonly TrainingWork[]): string {
  return writeTrainingResult({
    format: RESULT_FORMAT,
    version: TRAINING_VERSION,
    name: name.trim().slice(0, 80),
    machine: trainingMachine(document),
    work: [...work],
  });
}

function problemsOf(document: HarnessDocument, tasks: readonly TrainingTask[]): readonly TaskProblem[] {
  return tasks.flatMap((task, at): readonly TaskProblem[] => {
    const message = problemOf(document, task);
    return message === undefined ? [] : [{ at, message }];
  });
}

function problemOf(document: HarnessDocument, task: TrainingTask): string | undefined {
  if (task.kind === "code") {
    const read = readTaskCode(document, task.code);
    if (!read.ok) return read.error.message;
    if (read.value.topic !== "exercise") return drillProblem(document, task.code);
  }
  const exercise = makeExercise(document, task);
  return exercise.ok ? undefined : exercise.error.message;
}

function drillProblem(document: HarnessDocument, code: string): string | undefined {
  const set = drillsOfCode(document, code);
  if (!set.ok) return set.error.message;
  return set.value.drills.length > 0 ? undefined : "This machine has no drill of this kind";
}
