import { z } from "zod";
import type { Frozen } from "../frozen.ts";

/** Something in the question is wrong, other than a name that fits nothing: a fault that cannot be read, a thing of the wrong sort. */
export const WrongQuestionAnswer = z.object({
  kind: z.literal("wrong-question").describe("Sort of answer"),
  machine: z.string().describe("Name of the machine"),
  build: z.string().describe("Id of the variant (build)"),
  text: z.string().describe("The answer in words, for people"),
  problems: z
    .array(
      z.object({
        code: z.string().describe("Short name of the reason"),
        of: z.string().describe("The part of the question, as written"),
        text: z.string().describe("What is wrong, in words"),
        ways: z
          .array(z.string())
          .optional()
          .describe("Where the part has more than one meaning: what to write for each"),
      }),
    )
    .describe("Everything that is wrong with the question"),
});

export type WrongQuestionAnswer = Frozen<z.infer<typeof WrongQuestionAnswer>>;
