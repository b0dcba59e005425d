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
export const PracticeMachine = z.strictObject({ title: Line, machine: Line, harnessCheck: z.string().max(64) });

/** A task: a code, or a fault the trainer wrote, in the text form of faults. */
export const PracticeTask = z.discriminatedUnion("kind", [
  z.strictObject({ kind: z.literal("code"), code: z.string().max(40), title: Line.optional() }),
  z.strictObject({
    kind: z.literal("written"),
    title: Line,
    build: Id,
    fault: Line,
    /** Shows only now and then, or when it is moved. */
    comesAndGoes: z.boolean().optional(),
    /** The complaint in the trainer's words, in place of what follows from the solver. */
    words: z.string().max(2000).optional(),
    level: z.union([z.literal(1), z.literal(2), z.literal(3)]),
  }),
]);

/** A list of tasks for a class, `*.ohmtasks.json`. */
export const TaskList = z.strictObject({
  format: z.literal(TASK_LIST_FORMAT),
  version: z.literal(PRACTICE_VERSION),
  title: Line,
  machine: PracticeMachine,
  /** Whether a hypothesis is asked for before each action. */
  asksHypothesis: z.boolean(),
  tasks: z.array(PracticeTask).min(1).max(MOST_TASKS),
  /** Plain checksum over the rest. No signature. */
  check: z.string().max(64),
});

export type TaskList = z.infer<typeof TaskList>;
export type PracticeTask = z.infer<typeof PracticeTask>;
export type PracticeMachine = z.infer<typeof PracticeMachine>;
