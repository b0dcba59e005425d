import { z } from "zod";
import type { Frozen } from "../frozen.ts";
import type { Scene } from "../scene.ts";

/** Something in the question is wrong, other than a name that fits nothing: a fault that cannot be read, a thing of the wrong sort. */
export const WrongQuestionAnswer = z.object({
  kind: z.literal("wrong-question"),
  machine: z.string(),
  build: z.string(),
  text: z.string(),
  problems: z.array(
    z.object({
      code: z.string(),
      /** The part of the question, as written. */
      of: z.string(),
      text: z.string(),
    }),
  ),
});

export type WrongQuestionAnswer = Frozen<z.infer<typeof WrongQuestionAnswer>>;

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
    problems: problems.map(({ code, of, text }) => ({ code, of, text })),
  };
}
