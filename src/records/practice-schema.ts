import { z } from "zod";
import { Id, Line } from "./schema.ts";

/** The format name every task list of a class carries. */
export const TASK_LIST_FORMAT = "ohmward-practice-tasks";
/** The newest version of task lists and result files that this program reads, and the one it writes. */
export const PRACTICE_VERSION = 1;
/** Most tasks of a list. */
export const MOST_TASKS = 200;

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

/** A name made of several ids, such as that of a possible fault. */
const LongId = z.string().min(1).max(400);

const ThingType = z.enum(["contact", "wire", "splice", "stud", "element", "component", "connector", "segment"]);

/** The sorts of thing that can be looked at, moved or suspected in a hunt. */
export const HUNT_THING_TYPES = ThingType.options;

/** A thing of the machine, named as in answers. */
const Thing = z.strictObject({ type: ThingType, id: Id });

/** Where one lead goes and how; the last three methods are what people are tempted by, and are stopped. */
const Lead = z.strictObject({
  point: Id,
  method: z.enum([
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
  ]),
  adapter: Id.optional(),
});

/** One thing the trainee did in a fault hunt. The whole hunt follows from the task and these, so a file of them can be played again. */
export const HuntEvent = z.discriminatedUnion("kind", [
  /** What is suspected now; written down before each action where the task asks for it. */
  z.strictObject({
    kind: z.literal("hypothesis"),
    suspects: z.array(Thing).max(20),
    text: z.string().max(600).optional(),
  }),
  z.strictObject({ kind: z.literal("state"), to: Id }),
  z.strictObject({ kind: z.literal("open"), connector: Id }),
  z.strictObject({ kind: z.literal("close"), connector: Id }),
  /** `at` is the connector or relay the adapter sits on. */
  z.strictObject({ kind: z.literal("fit"), adapter: Id, at: Id }),
  z.strictObject({ kind: z.literal("remove"), adapter: Id, at: Id }),
  /** Leads held together and the meter set to zero on ohms. */
  z.strictObject({ kind: z.literal("zero-leads") }),
  /** The meter held to a point known to be live; counts until the state of the machine changes. */
  z.strictObject({ kind: z.literal("prove-meter") }),
  /** `range` is the highest value of the range chosen by hand; `insists` goes on where the rules stopped. A clamp has no black lead. */
  z.strictObject({
    kind: z.literal("measure"),
    meter: z.enum(["volts", "ohms", "clamp", "test-lamp"]),
    red: Lead,
    black: Lead.optional(),
    range: z.number().positive().max(1e9).optional(),
    insists: z.boolean().optional(),
  }),
  z.strictObject({ kind: z.literal("look"), at: Thing }),
  z.strictObject({ kind: z.literal("wiggle"), at: Thing }),
  z.strictObject({ kind: z.literal("drag"), at: Thing }),
  /** A known-good part put in to try, and taken out again. */
  z.strictObject({ kind: z.literal("swap"), at: Thing }),
  z.strictObject({ kind: z.literal("hint"), level: z.union([z.literal(1), z.literal(2), z.literal(3)]) }),
  /** The cause as the trainee names it, by the id of a possible fault of the machine, such as `open W78`. */
  z.strictObject({ kind: z.literal("name"), cause: LongId }),
  z.strictObject({ kind: z.literal("repair"), cause: LongId }),
  /** The complaint tried again. */
  z.strictObject({ kind: z.literal("try"), state: Id }),
  z.strictObject({ kind: z.literal("end") }),
]);

export type HuntEvent = z.infer<typeof HuntEvent>;

/** The format name every result file carries. */
export const RESULT_FORMAT = "ohmward-practice-result";

/** What a trainee did in one task: answers to drills, or the events of a hunt. */
const Work = z.discriminatedUnion("kind", [
  z.strictObject({
    kind: z.literal("drills"),
    task: PracticeTask,
    answers: z.array(z.strictObject({ drill: LongId, picked: z.array(LongId).max(200) })).max(500),
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
