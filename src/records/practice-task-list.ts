import { z } from "zod";

/** The format name every task list of a class carries. */
export const TASK_LIST_FORMAT = "ohmward-practice-tasks";
/** The newest version of task lists and result files that this program reads, and the one it writes. */
export const PRACTICE_VERSION = 1;
/** Most tasks of a list. */
export const MOST_TASKS = 200;

const Id = z.string().min(1).max(130);
const Line = z.string().max(600);

/** Which harness data a file was made with. */
export const PracticeMachine = z.strictObject({
  title: Line.describe("Title of the harness document"),
  machine: Line.describe("Name of the machine"),
  harnessCheck: z.string().max(64).describe("Fingerprint of the harness data"),
});

/** A task: a code, or a fault the trainer wrote, in the text form of faults. */
export const PracticeTask = z.discriminatedUnion("kind", [
  z.strictObject({
    kind: z.literal("code").describe("Sort of exercise: a code, or a fault the trainer wrote"),
    code: z.string().max(40).describe("Exercise code"),
    title: Line.optional().describe("Title for people"),
  }),
  z.strictObject({
    kind: z.literal("written").describe("Sort of exercise: a code, or a fault the trainer wrote"),
    title: Line.describe("Title for people"),
    build: Id.describe("Id of the variant (build)"),
    fault: Line.describe("Inserted fault in text form, such as `open:W78`"),
    comesAndGoes: z.boolean().optional().describe("Shows only now and then, or when it is moved"),
    words: z
      .string()
      .max(2000)
      .optional()
      .describe("The complaint in the trainer's words, in place of what follows from the solver"),
    level: z.union([z.literal(1), z.literal(2), z.literal(3)]).describe("Level, 1 (easy) to 3 (hard)"),
  }),
]);

/** A list of tasks for a class, `*.ohmtasks.json`. */
export const TaskList = z.strictObject({
  format: z.literal(TASK_LIST_FORMAT).describe("Name of the format"),
  version: z.literal(PRACTICE_VERSION).describe("Version of the format"),
  title: Line.describe("Title of the list"),
  machine: PracticeMachine.describe("Which harness data it was made with"),
  asksHypothesis: z.boolean().describe("Whether a hypothesis is asked for before each action"),
  tasks: z.array(PracticeTask).min(1).max(MOST_TASKS).describe("The exercises"),
  check: z.string().max(64).describe("Plain checksum over the rest. No signature"),
});

export type TaskList = z.infer<typeof TaskList>;
export type PracticeTask = z.infer<typeof PracticeTask>;
export type PracticeMachine = z.infer<typeof PracticeMachine>;
