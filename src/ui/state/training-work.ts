import { plainText } from "../../application/index.ts";
import type { TrainingTask, TrainingWork } from "../../job-records/index.ts";
import type { TrainingProgress } from "./training-store.ts";

/** Whether two exercises are one and the same, whatever title they go under. */
export function isSameTask(first: TrainingTask, second: TrainingTask): boolean {
  return keyOf(first) === keyOf(second);
}

/** The work on an exercise among others; the latest where there are several. */
export function workOn(works: readonly TrainingWork[], task: TrainingTask): TrainingWork | undefined {
  return works.findLast((work) => isSameTask(work.task, task));
}

/** Progress with this work started, in the place of what was started on the same exercise. */
export function withStarted(progress: TrainingProgress, work: TrainingWork): TrainingProgress {
  return { ...progress, started: [...without(progress.started, work.task), work] };
}

/** Progress with this work done. An exercise done again stands there twice: of a result the best counts. */
export function withDone(progress: TrainingProgress, work: TrainingWork): TrainingProgress {
  return { ...progress, started: without(progress.started, work.task), done: [...progress.done, work] };
}

/** Progress without what was started on an exercise. */
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
