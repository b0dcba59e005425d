import { plainText } from "../../application/index.ts";
import type { TrainingTask, TrainingWork } from "../../job-records/index.ts";
import type { TrainingProgress } from "./training-store.ts";

/** Whether two tasks are one and the same, whatever title they go under. */
export function isSameTask(first: TrainingTask, second: TrainingTask): boolean {
  return keyOf(first) === keyOf(second);
}

/** The work on a task among others; the latest where there are several. */
export function workOn(works: readonly TrainingWork[], task: TrainingTask): TrainingWork | undefined {
  return works.findLast((work) => isSameTask(work.task, task));
}

/** Progress with this work begun, in the place of what was begun on the same task. */
export function withStarted(progress: TrainingProgress, work: TrainingWork): TrainingProgress {
  return { ...progress, started: [...without(progress.started, work.task), work] };
}

/** Progress with this work done. A task done again stands there twice: of a result the best counts. */
export function withDone(progress: TrainingProgress, work: TrainingWork): TrainingProgress {
  return { ...progress, started: without(progress.started, work.task), done: [...progress.done, work] };
}

/** Progress without what was begun on a task. */
export function withoutStarted(progress: TrainingProgress, task: TrainingTask): TrainingProgress {
  return { ...progress, started: without(progress.started, task) };
}

/** Today as a whole number of days, by the clock of the device. */
export function dayToday(): number {
  const date = new Date();
  return Math.floor((date.getTime() - date.getTimezoneOffset() * 60_000) / 86_400_000);
}

function without(works: readonly TrainingWork[], task: TrainingTask): readonly TrainingWork[] {
  return works.filter((work) => !isSameTask(work.task, task));
}

function keyOf(task: TrainingTask): string {
  if (task.kind === "code") return task.code.toUpperCase().replace(/[\s-]/gu, "");
  return plainText(task);
}
