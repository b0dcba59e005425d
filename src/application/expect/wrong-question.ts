import type { MachineContext } from "../machine-context.ts";
import type { WrongQuestionAnswer } from "./wrong-question-answer.ts";

/**
 * Says what is wrong with a question.
 *
 * @param context The machine in its build and state.
 * @param problems What is wrong, one or more.
 */
export function wrongQuestion(context: MachineContext, problems: WrongQuestionAnswer["problems"]): WrongQuestionAnswer {
  return {
    kind: "wrong-question",
    machine: context.machine.document.about.machine,
    build: context.harness.build.id,
    text:
      problems.length === 1
        ? "There is no answer to this question:"
        : "There is no answer to this question, for several reasons:",
    problems: problems.map(({ code, of, text, ways = [] }) => ({ code, of, text, ...(ways.length > 0 && { ways }) })),
  };
}
