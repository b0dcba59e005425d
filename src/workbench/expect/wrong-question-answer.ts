import { z } from "zod";
import type { Frozen } from "../frozen.ts";

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
      /** Where the part can be read in more than one way: what to write for each. */
      ways: z.array(z.string()).optional(),
    }),
  ),
});

export type WrongQuestionAnswer = Frozen<z.infer<typeof WrongQuestionAnswer>>;
