import { z } from "zod";
import { HuntEvent } from "./practice-hunt-event.ts";
import { PRACTICE_VERSION, PracticeMachine, PracticeTask } from "./practice-task-list.ts";

/** The format name every result file carries. */
export const RESULT_FORMAT = "ohmward-practice-result";

const Id = z.string().min(1).max(400);

/** What a trainee did in one task: answers to drills, or the events of a hunt. */
const Work = z.discriminatedUnion("kind", [
  z.strictObject({
    kind: z.literal("drills").describe("Sort of exercise: drills or a fault-finding exercise"),
    task: PracticeTask.describe("The exercise"),
    answers: z
      .array(
        z.strictObject({
          drill: Id.describe("Id of the drill"),
          picked: z.array(Id).max(200).describe("Ids of what was picked"),
        }),
      )
      .max(500)
      .describe("Answers to the drills"),
    points: z
      .number()
      .min(0)
      .max(100)
      .describe("Points as shown to the trainee; worked out again when the file is read"),
  }),
  z.strictObject({
    kind: z.literal("hunt").describe("Sort of exercise: drills or a fault-finding exercise"),
    task: PracticeTask.describe("The exercise"),
    asksHypothesis: z.boolean().describe("Whether a stated cause is asked for before each action"),
    events: z.array(HuntEvent).max(2000).describe("What the trainee did, in order"),
    points: z
      .number()
      .min(0)
      .max(100)
      .describe("Points as shown to the trainee, 0 to 100; calculated again when the file is read"),
  }),
]);

/** The results of one trainee, `*.ohmresult.json`. The name is what the trainee typed; nothing else about a person is in it. */
export const PracticeResult = z.strictObject({
  format: z.literal(RESULT_FORMAT).describe("Name of the format"),
  version: z.literal(PRACTICE_VERSION).describe("Version of the format"),
  name: z.string().max(80).describe("Name as the trainee typed it"),
  machine: PracticeMachine.describe("Which harness data it was made with"),
  work: z.array(Work).max(200).describe("What the trainee did, exercise by exercise"),
  check: z.string().max(64).describe("Plain checksum over the rest. No signature"),
});

export type PracticeResult = z.infer<typeof PracticeResult>;
/** What a trainee did in one task. */
export type PracticeWork = z.infer<typeof Work>;
