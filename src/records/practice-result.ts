import { z } from "zod";
import { HuntEvent } from "./practice-hunt-event.ts";
import { PRACTICE_VERSION, PracticeMachine, PracticeTask } from "./practice-task-list.ts";

/** The format name every result file carries. */
export const RESULT_FORMAT = "ohmward-practice-result";

const Id = z.string().min(1).max(400);

/** What a trainee did in one task: answers to drills, or the events of a hunt. */
const Work = z.discriminatedUnion("kind", [
  z.strictObject({
    kind: z.literal("drills"),
    task: PracticeTask,
    answers: z.array(z.strictObject({ drill: Id, picked: z.array(Id).max(200) })).max(500),
    /** Points as shown to the trainee; worked out again when the file is read. */
    points: z.number().min(0).max(100),
  }),
  z.strictObject({
    kind: z.literal("hunt"),
    task: PracticeTask,
    asksHypothesis: z.boolean(),
    events: z.array(HuntEvent).max(2000),
    points: z.number().min(0).max(100),
  }),
]);

/** The results of one trainee, `*.ohmresult.json`. The name is what the trainee typed; nothing else about a person is in it. */
export const PracticeResult = z.strictObject({
  format: z.literal(RESULT_FORMAT),
  version: z.literal(PRACTICE_VERSION),
  name: z.string().max(80),
  machine: PracticeMachine,
  work: z.array(Work).max(200),
  /** Plain checksum over the rest. No signature. */
  check: z.string().max(64),
});

export type PracticeResult = z.infer<typeof PracticeResult>;
/** What a trainee did in one task. */
export type PracticeWork = z.infer<typeof Work>;
