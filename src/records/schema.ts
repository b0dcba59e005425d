import { z } from "zod";
import { BOUNDS, within } from "../model/index.ts";

/** The format name every job record carries. */
export const JOB_FORMAT = "ohmward-job";
/** The newest record version this program reads and the one it writes. */
export const JOB_VERSION = 1;

/** An id or address as records hold it. */
export const Id = z.string().min(1).max(130);
const Text = z.string().max(2000);
/** One line of text as records hold it. */
export const Line = z.string().max(600);
/** A moment as the caller's clock gave it, ISO 8601; kept as text because nothing is reckoned with it. */
const Moment = z.string().max(40);
const Minutes = z.number().min(0).max(100_000);

/** Which data the job was worked with: enough to notice that the machine's data has changed since. */
const Machine = z.strictObject({
  title: Line,
  machine: Line,
  revision: Line.optional(),
  contentHash: z.string().max(64),
  build: z.strictObject({ id: Id, label: Line }),
});

/** Under which conditions the complaint shows. Absent means not asked or no matter. */
const Conditions = z.strictObject({
  temperature: z.enum(["cold", "hot"]).optional(),
  wetness: z.enum(["wet", "dry"]).optional(),
  load: Line.optional(),
  presence: z.enum(["always", "comes-and-goes", "happened-once"]).optional(),
  weather: Line.optional(),
});

/** What was done to the machine lately; `touched` are addresses or ids of what was opened, repaired or added. */
const RecentWork = z.strictObject({ text: Text, touched: z.array(Id).max(200) });

const Complaint = z.strictObject({
  words: Text,
  conditions: Conditions,
  since: Line.optional(),
  recentWork: z.array(RecentWork).max(50),
});

/** A reading as it was given. `text` is what was typed; `value` is in volts, ohms or amperes, whatever prefix was typed. */
const Given = z.discriminatedUnion("kind", [
  z.strictObject({
    kind: z.literal("value"),
    text: Line,
    value: within(BOUNDS.reading),
    unit: z.enum(["V", "Ω", "A"]),
    isDoubtful: z.boolean().optional(),
    isMeterProven: z.boolean().optional(),
  }),
  z.strictObject({ kind: z.literal("over-range"), isMeterProven: z.boolean().optional() }),
  z.strictObject({ kind: z.literal("unsteady") }),
  z.strictObject({ kind: z.literal("outcome"), outcome: Id }),
  z.strictObject({ kind: z.literal("not-sure") }),
  z.strictObject({ kind: z.literal("cannot-be-done"), reason: Line.optional() }),
]);

/** A check as it was done: point, condition, set-up, meter, what was expected. */
const Check = z.strictObject({
  /** Names the check and its set-up: two checks with one key are the same evidence. */
  key: z.string().min(1).max(400),
  kind: z.enum(["volts", "ohms", "amps", "lamp", "look", "wiggle", "drag", "swap"]),
  point: Line,
  condition: Line,
  setup: z.array(Line).max(50),
  meter: Line,
  expected: Line,
  minutes: Minutes,
});

const Suspect = z.strictObject({ id: Id, label: Line, share: z.number().min(0).max(1) });

/** Whether a reading was as in the healthy machine. */
export const Verdict = z.enum(["as-expected", "not-as-expected", "no-verdict"]);
export type Verdict = z.infer<typeof Verdict>;

/** How a job ended. */
export const JobOutcome = z.enum(["mended", "not-found", "passed-on"]);
export type JobOutcome = z.infer<typeof JobOutcome>;

const common = { id: Id, at: Moment };

const Event = z.discriminatedUnion("kind", [
  z.strictObject({ ...common, kind: z.literal("complaint"), complaint: Complaint }),
  z.strictObject({ ...common, kind: z.literal("code"), code: Id, status: z.enum(["active", "stored", "absent"]) }),
  z.strictObject({
    ...common,
    kind: z.literal("symptom"),
    thing: Id,
    is: z.enum(["bad", "good"]),
    note: Line.optional(),
  }),
  z.strictObject({ ...common, kind: z.literal("equipment"), adapters: z.array(Id).max(500) }),
  /** Makes a suspect or a sort of suspect more or less likely beforehand; `of` is an id or a sort, `origin` says why. */
  z.strictObject({ ...common, kind: z.literal("prior"), of: Id, factor: z.number().min(0).max(1000), origin: Line }),
  z.strictObject({
    ...common,
    kind: z.literal("reading"),
    check: Check,
    given: Given,
    verdict: Verdict,
    suspects: z.array(Suspect).max(20),
  }),
  /** A reading corrected afterwards. */
  z.strictObject({ ...common, kind: z.literal("amend"), of: Id, given: Given, verdict: Verdict }),
  /** Any earlier event taken back. */
  z.strictObject({ ...common, kind: z.literal("undo"), of: Id }),
  z.strictObject({ ...common, kind: z.literal("cause"), suspect: Id, text: Text }),
  z.strictObject({
    ...common,
    kind: z.literal("repair"),
    text: Text,
    parts: z.array(Line).max(50),
    minutes: Minutes.optional(),
  }),
  z.strictObject({
    ...common,
    kind: z.literal("proof"),
    check: Check,
    given: Given,
    verdict: Verdict,
  }),
  z.strictObject({ ...common, kind: z.literal("note"), text: Text }),
  z.strictObject({
    ...common,
    kind: z.literal("closed"),
    outcome: JobOutcome,
    notChecked: Text.optional(),
  }),
]);

/** A job record, `*.ohmjob.json`: the machine, and everything that happened, in order. All else is worked out from the events. */
export const JobRecord = z.strictObject({
  format: z.literal(JOB_FORMAT),
  version: z.literal(JOB_VERSION),
  id: Id,
  machine: Machine,
  openedAt: Moment,
  events: z.array(Event).max(10_000),
});

export type JobRecord = z.infer<typeof JobRecord>;
/** One thing that happened in a job. Nothing is ever taken out of a record: undoing is an event too. */
export type JobEvent = z.infer<typeof Event>;
/** A reading as it was given. */
export type GivenReading = z.infer<typeof Given>;
/** A check as it is written down. */
export type RecordedCheck = z.infer<typeof Check>;
/** The complaint with its conditions. */
export type JobComplaint = z.infer<typeof Complaint>;
/** Which data a job was worked with. */
export type JobMachine = z.infer<typeof Machine>;
