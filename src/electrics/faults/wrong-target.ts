import type { QuestionProblem } from "../network/situation.ts";

/** Says that a target is of the wrong sort. */
export function wrongTarget(of: string, text: string): QuestionProblem {
  return { code: "wrong-target", of, text: `"${of}" ${text}` };
}
