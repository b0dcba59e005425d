import { err, ok } from "../../base/index.ts";
import { openHarness } from "../../model/index.ts";
import type { ReadResult } from "../format-reader.ts";
import { carryProblem, type ImportPlace, type ImportProblem } from "../import-problem.ts";

/**
 * Has the checks of the model judge a document that was made from a file.
 *
 * @param document The document as plain data.
 * @param before Problems found while it was made.
 * @param placeOf Where in the file the thing stands that a way into the document leads to.
 */
export function judgeDocument(
  document: object,
  before: readonly ImportProblem[],
  placeOf: (path: string) => ImportPlace | undefined,
): ReadResult {
  // Through the text, because the one door into the model takes a text and so nothing can slip past its checks.
  const opened = openHarness(JSON.stringify(document));
  const found = opened.ok ? opened.value.warnings : opened.error;
  const problems = [...before, ...found.map((problem) => carryProblem(problem, placeOf(problem.at.path)))];
  if (!opened.ok || problems.some((problem) => problem.severity === "error")) return err(problems);
  return ok({ document: opened.value.document, warnings: problems });
}
