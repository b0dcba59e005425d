import type { TrainingProblem } from "../../job-records/index.ts";
import type { FileProblem } from "../import/file-problem.ts";

const HINTS: Readonly<Record<TrainingProblem["code"], string>> = {
  "too-large": "Give a task list or a result file of practice; they are small",
  "not-json": "Ask for the file again; it was cut off, or is another file",
  "wrong-format": "Give a task list (*.ohmtasks.json) or a result file (*.ohmresult.json)",
  "newer-version": "Use a newer program; the file is left as it is",
  shape: "Ask for the file again; it was changed by hand or damaged on the way",
};

/**
 * A problem of a practice file as problems of all files are told.
 *
 * @param file What the file is called.
 * @param problem The problem.
 */
export function trainingFileProblem(file: string, { code, path, message }: TrainingProblem): FileProblem {
  const at = { file, ...(path === "" ? {} : { path }) };
  return { severity: "error", code, at, message, hint: HINTS[code] };
}

/**
 * A task that cannot be made.
 *
 * @param at Where it was written.
 * @param message Why.
 * @param hint What to do.
 */
export function taskProblem(
  at: FileProblem["at"],
  message: string,
  hint = "Take the task off the list, or make it anew with the harness data at hand",
): FileProblem {
  return { severity: "error", code: "no-such-task", at, message, hint };
}
