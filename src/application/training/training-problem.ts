import type { TrainingProblem } from "../../job-records/index.ts";
import type { FileProblem } from "../import/file-problem.ts";

const HINTS: Readonly<Record<TrainingProblem["code"], string>> = {
  "too-large": "Give an exercise list or a result file of training; they are small",
  "not-json": "Ask for the file again; it was cut off or is another file",
  "wrong-format": "Give an exercise list (*.ohmtasks.json) or a result file (*.ohmresult.json)",
  "newer-version": "Use a newer program; the file is left as it is",
  shape: "Ask for the file again; it was edited or damaged",
};

/**
 * A problem of a training file in the form of problems of all files.
 *
 * @param file What the file is called.
 * @param problem The problem.
 */
export function trainingFileProblem(file: string, { code, path, message }: TrainingProblem): FileProblem {
  const at = { file, ...(path === "" ? {} : { path }) };
  return { severity: "error", code, at, message, hint: HINTS[code] };
}

/**
 * An exercise that cannot be made.
 *
 * @param at Where it was written.
 * @param message Why.
 * @param hint What to do.
 */
export function taskProblem(
  at: FileProblem["at"],
  message: string,
  hint = "Remove the exercise from the list, or generate it again with the harness data available",
): FileProblem {
  return { severity: "error", code: "no-such-task", at, message, hint };
}
