import type { Scene } from "../scene.ts";
import type { WrongQuestionAnswer } from "./wrong-question-answer.ts";

/**
 * Says what is wrong with a question.
 *
 * @param scene The machine in its build and state.
 * @param problems What is wrong, one or more.
 */
export function wrongQuestion(scene: Scene, problems: WrongQuestionAnswer["problems"]): WrongQuestionAnswer {
  return {
    kind: "wrong-question",
    machine: scene.machine.document.about.machine,
    build: scene.harness.build.id,
    text: problems.length === 1 ? "The question cannot be put:" : "The question cannot be put, for several reasons:",
    problems: problems.map(({ code, of, text, ways = [] }) => ({ code, of, text, ...(ways.length > 0 && { ways }) })),
  };
}
