import { z } from "zod";
import { Id, Line } from "./schema.ts";

/** The format name every task list of a class carries. */
export const TASK_LIST_FORMAT = "ohmward-practice-tasks";
/** The newest version of task lists and result files that this program reads, and the one it writes. */
export const TRAINING_VERSION = 2;
/** Most tasks of a list. */
export const MOST_TASKS = 200;

/** Which harness data a file was made with. */
export const TrainingMachine = z.strictObject({
  title: Line.describe("Title of the harness document"),
  machine: Line.describe("Name of the machine"),
  harnessCheck: z.string().max(64).describe("Fingerprint of the harness data"),
});

/** A task: a code, or a fault the trainer wrote, in the text form of faults. */
export const TrainingTask = z.discriminatedUnion("kind", [
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
  version: z.literal(TRAINING_VERSION).describe("Version of the format"),
  title: Line.describe("Title of the list"),
  machine: TrainingMachine.describe("Which harness data it was made with"),
  asksHypothesis: z.boolean().describe("Whether a hypothesis is asked for before each action"),
  tasks: z.array(TrainingTask).min(1).max(MOST_TASKS).describe("The exercises"),
  check: z.string().max(64).describe("Plain checksum over the rest. No signature"),
});

export type TaskList = z.infer<typeof TaskList>;
export type TrainingTask = z.infer<typeof TrainingTask>;
export type TrainingMachine = z.infer<typeof TrainingMachine>;

const ItemType = z.enum(["contact", "wire", "splice", "stud", "element", "component", "connector", "segment"]);

/** The sorts of thing that can be looked at, moved or suspected in a hunt. */
export const EXERCISE_ITEM_TYPES = ItemType.options;

/** A thing of the machine, named as in answers. */
const Item = z.strictObject({
  type: ItemType.describe("Sort of item"),
  id: Id.describe("Id or address of the item"),
});

/** Where one lead goes and how; the last three methods are what people are tempted by, and are stopped. */
const Lead = z.strictObject({
  point: Id.describe("Address of the point the lead goes to"),
  method: z
    .enum([
      "clamp",
      "tip",
      "clip",
      "fuse-window",
      "mating-adapter",
      "in-line",
      "relay-extension",
      "front-probe",
      "screw",
      "back-probe",
      "pierce",
      "tip-in-socket",
    ])
    .describe("How the lead goes there, such as `clamp`, `in-line`, `front-probe`"),
  adapter: Id.optional().describe("Id of the test adapter"),
});

/** A name made of several ids, such as that of a possible fault. */
const LongId = z.string().min(1).max(400);
const did = <const Kind extends string>(kind: Kind) => z.literal(kind).describe("What the trainee did");
const atItem = { at: Item.describe("The item or connector it is done at") };
const atConnector = { connector: Id.describe("Id of the connector that is disconnected or connected") };
const withAdapter = {
  adapter: Id.describe("Id of the test adapter"),
  at: Id.describe("The item or connector it is done at"),
};
const namedCause = {
  cause: LongId.describe("Id of the possible fault that is named or repaired, such as `open W78`"),
};

/** One thing the trainee did in a fault hunt. The whole hunt follows from the task and these, so a file of them can be played again. */
export const ExerciseEvent = z.discriminatedUnion("kind", [
  /** What is suspected now; written down before each action where the task asks for it. */
  z.strictObject({
    kind: did("hypothesis"),
    suspects: z.array(Item).max(20).describe("Items that are suspected now"),
    text: z.string().max(600).optional().describe("The trainee's words"),
  }),
  z.strictObject({
    kind: did("state"),
    to: Id.describe("Id of the state the machine is brought to"),
  }),
  z.strictObject({
    kind: did("open"),
    ...atConnector,
  }),
  z.strictObject({
    kind: did("close"),
    ...atConnector,
  }),
  /** `at` is the connector or relay the adapter sits on. */
  z.strictObject({
    kind: did("fit"),
    ...withAdapter,
  }),
  z.strictObject({
    kind: did("remove"),
    ...withAdapter,
  }),
  /** Leads held together and the meter set to zero on ohms. */
  z.strictObject({ kind: did("zero-leads") }),
  /** The meter held to a point known to be live; counts until the state of the machine changes. */
  z.strictObject({ kind: did("prove-meter") }),
  /** `range` is the highest value of the range chosen by hand; `insists` goes on where the rules stopped. A clamp has no black lead. */
  z.strictObject({
    kind: did("measure"),
    meter: z.enum(["dc-voltage", "resistance", "clamp", "test-lamp"]).describe("Function of the meter"),
    red: Lead.describe("Where the red (V/Ω) lead goes"),
    black: Lead.optional().describe("Where the black (COM) lead goes"),
    range: z.number().positive().max(1e9).optional().describe("Highest value of the range chosen by hand, in V or ohm"),
    insists: z.boolean().optional().describe("Whether the trainee went on where a rule said no"),
  }),
  z.strictObject({
    kind: did("visual-inspection"),
    ...atItem,
  }),
  z.strictObject({
    kind: did("wiggle"),
    ...atItem,
  }),
  z.strictObject({
    kind: did("terminal-drag"),
    ...atItem,
  }),
  /** A known-good part put in to try, and taken out again. */
  z.strictObject({
    kind: did("substitute"),
    ...atItem,
  }),
  z.strictObject({
    kind: did("hint"),
    level: z.union([z.literal(1), z.literal(2), z.literal(3)]).describe("Level of the hint, 1 to 3"),
  }),
  /** The cause as the trainee names it, by the id of a possible fault of the machine, such as `open W78`. */
  z.strictObject({
    kind: did("name"),
    ...namedCause,
  }),
  z.strictObject({
    kind: did("repair"),
    ...namedCause,
  }),
  /** The complaint tried again. */
  z.strictObject({
    kind: did("try"),
    state: Id.describe("Id of the state in which the complaint is tried again"),
  }),
  z.strictObject({ kind: did("end") }),
]);

export type ExerciseEvent = z.infer<typeof ExerciseEvent>;

/** The format name every result file carries. */
export const RESULT_FORMAT = "ohmward-practice-result";

/** What a trainee did in one task: answers to drills, or the events of a hunt. */
const Work = z.discriminatedUnion("kind", [
  z.strictObject({
    kind: z.literal("drills").describe("Sort of exercise: drills or a fault-finding exercise"),
    task: TrainingTask.describe("The exercise"),
    answers: z
      .array(
        z.strictObject({
          drill: LongId.describe("LongId of the drill"),
          picked: z.array(LongId).max(200).describe("Ids of what was picked"),
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
    kind: z.literal("exercise").describe("Sort of exercise: drills or a fault-finding exercise"),
    task: TrainingTask.describe("The exercise"),
    asksHypothesis: z.boolean().describe("Whether a stated cause is asked for before each action"),
    events: z.array(ExerciseEvent).max(2000).describe("What the trainee did, in order"),
    points: z
      .number()
      .min(0)
      .max(100)
      .describe("Points as shown to the trainee, 0 to 100; calculated again when the file is read"),
  }),
]);

/** The results of one trainee, `*.ohmresult.json`. The name is what the trainee typed; nothing else about a person is in it. */
export const TrainingResult = z.strictObject({
  format: z.literal(RESULT_FORMAT).describe("Name of the format"),
  version: z.literal(TRAINING_VERSION).describe("Version of the format"),
  name: z.string().max(80).describe("Name as the trainee typed it"),
  machine: TrainingMachine.describe("Which harness data it was made with"),
  work: z.array(Work).max(200).describe("What the trainee did, exercise by exercise"),
  check: z.string().max(64).describe("Plain checksum over the rest. No signature"),
});

export type TrainingResult = z.infer<typeof TrainingResult>;
/** What a trainee did in one task. */
export type TrainingWork = z.infer<typeof Work>;
