import { z } from "zod";
import { BOUNDS, within } from "../harness-model/index.ts";

/** The format name every job record carries. */
export const JOB_FORMAT = "ohmward-job";
/** The newest record version this program reads and the one it writes. */
export const JOB_VERSION = 2;

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
  title: Line.describe("Title of the harness document"),
  machine: Line.describe("Name of the machine"),
  revision: Line.optional().describe("Revision of the harness document"),
  contentHash: z.string().max(64).describe("Fingerprint of the harness data"),
  build: z
    .strictObject({ id: Id.describe("Id of the variant (build)"), label: Line.describe("Its label") })
    .describe("The variant (build)"),
});

/** Under which conditions the complaint shows. Absent means not asked or no matter. */
const Conditions = z.strictObject({
  temperature: z.enum(["cold", "hot"]).optional().describe("Only when cold or hot"),
  wetness: z.enum(["wet", "dry"]).optional().describe("Only when wet or dry"),
  load: Line.optional().describe("Load or manner of driving under which it shows"),
  presence: z.enum(["always", "intermittent", "once"]).optional().describe("Always, intermittent, or occurred once"),
  weather: Line.optional().describe("Weather, in words"),
});

/** What was done to the machine lately; `touched` are addresses or ids of what was opened, repaired or added. */
const RecentWork = z.strictObject({
  text: Text.describe("What was done lately, in words"),
  touched: z.array(Id).max(200).describe("Addresses or ids of what was opened, repaired or added"),
});

const Complaint = z.strictObject({
  words: Text.describe("The complaint, in the operator's words"),
  conditions: Conditions.describe("Conditions under which the complaint shows"),
  since: Line.optional().describe("Since when, in words"),
  recentWork: z.array(RecentWork).max(50).describe("Recent work on the machine"),
});

/** A reading as it was given. `text` is what was typed; `value` is in volts, ohms or amperes, whatever prefix was typed. */
const Given = z.discriminatedUnion("kind", [
  z.strictObject({
    kind: z.literal("value").describe("Sort of reading"),
    text: Line.describe("What was typed"),
    value: within(BOUNDS.reading).describe("Value in the unit beside it, V, ohm or A, without prefix"),
    unit: z.enum(["V", "Ω", "A"]).describe("Unit of the value"),
    isDoubtful: z.boolean().optional().describe("Whether the person was unsure of the reading"),
    isMeterProven: z.boolean().optional().describe("Whether the meter was proven on a live point"),
  }),
  z.strictObject({
    kind: z.literal("overload").describe("Sort of reading"),
    isMeterProven: z.boolean().optional().describe("Whether the meter was proven on a live point"),
  }),
  z.strictObject({ kind: z.literal("unstable").describe("Sort of reading") }),
  z.strictObject({
    kind: z.literal("outcome").describe("Sort of reading"),
    outcome: Id.describe("Id of the outcome of a check without a meter"),
  }),
  z.strictObject({ kind: z.literal("unsure").describe("Sort of reading") }),
  z.strictObject({
    kind: z.literal("not-possible").describe("Sort of reading"),
    reason: Line.optional().describe("Why the check is not possible, in words"),
  }),
]);

/** A check as it was done: point, condition, set-up, meter, what was expected. */
const Check = z.strictObject({
  key: z
    .string()
    .min(1)
    .max(400)
    .describe("Names the check and its set-up: two checks with one key are the same evidence"),
  kind: z
    .enum([
      "dc-voltage",
      "resistance",
      "dc-current",
      "test-lamp",
      "visual-inspection",
      "wiggle",
      "terminal-drag",
      "substitute",
    ])
    .describe("Sort of check"),
  point: Line.describe("Where it was done, in words"),
  condition: Line.describe("State of the machine, in words"),
  setup: z.array(Line).max(50).describe("Preparation, in sentences"),
  meter: Line.describe("Function of the meter and its leads, in words"),
  expected: Line.describe("Normal reading or outcome, in words"),
  minutes: Minutes.describe("Planned time in minutes"),
});

const Suspect = z.strictObject({
  id: Id.describe("Id of the possible cause"),
  label: Line.describe("Name of the possible cause"),
  share: z.number().min(0).max(1).describe("Probability, 0 to 1"),
});

/** Whether a reading was as in the healthy machine. */
export const Verdict = z.enum(["pass", "fail", "inconclusive"]);
export type Verdict = z.infer<typeof Verdict>;

/** How a job ended. */
export const JobOutcome = z.enum(["repaired", "no-fault-found", "referred"]);
export type JobOutcome = z.infer<typeof JobOutcome>;

const common = { id: Id.describe("Id, unique in its list"), at: Moment.describe("When it happened, ISO 8601") };

const Event = z.discriminatedUnion("kind", [
  z.strictObject({
    ...common,
    kind: z.literal("complaint").describe("Sort of event"),
    complaint: Complaint.describe("The complaint with its conditions"),
  }),
  z.strictObject({
    ...common,
    kind: z.literal("code").describe("Sort of event"),
    code: Id.describe("Id of the diagnostic trouble code"),
    status: z
      .enum(["active", "previously-active", "not-present"])
      .describe("State of the trouble code: active, previously active (`stored`) or not present (`absent`)"),
  }),
  z.strictObject({
    ...common,
    kind: z.literal("symptom").describe("Sort of event"),
    item: Id.describe("Id of the item whose function was tried"),
    is: z.enum(["bad", "good"]).describe("`bad`: it fails; `good`: it works"),
    note: Line.optional().describe("Remark for people"),
  }),
  z.strictObject({
    ...common,
    kind: z.literal("equipment").describe("Sort of event"),
    adapters: z.array(Id).max(500).describe("Ids of the test adapters that are available"),
  }),
  /** Makes a suspect or a sort of suspect more or less likely beforehand; `of` is an id or a sort, `origin` says why. */
  z.strictObject({
    ...common,
    kind: z.literal("prior").describe("Sort of event"),
    of: Id.describe("Id of the event, the possible cause or the sort that is meant"),
    factor: z.number().min(0).max(1000).describe("Factor on the starting probability, 0 to 1000"),
    origin: Line.describe("Why, in words"),
  }),
  z.strictObject({
    ...common,
    kind: z.literal("reading").describe("Sort of event"),
    check: Check.describe("The check"),
    given: Given.describe("The reading as it was given"),
    verdict: Verdict.describe("Whether the reading is as in a machine without a fault"),
    suspects: z.array(Suspect).max(20).describe("Possible causes, most likely first"),
  }),
  /** A reading corrected afterwards. */
  z.strictObject({
    ...common,
    kind: z.literal("amend").describe("Sort of event"),
    of: Id.describe("Id of the event, the possible cause or the sort that is meant"),
    given: Given.describe("The reading as it was given"),
    verdict: Verdict.describe("Whether the reading is as in a machine without a fault"),
  }),
  /** Any earlier event taken back. */
  z.strictObject({
    ...common,
    kind: z.literal("undo").describe("Sort of event"),
    of: Id.describe("Id of the event, the possible cause or the sort that is meant"),
  }),
  z.strictObject({
    ...common,
    kind: z.literal("cause").describe("Sort of event"),
    suspect: Id.describe("Name of the possible cause"),
    text: Text.describe("What was recorded, in words"),
  }),
  z.strictObject({
    ...common,
    kind: z.literal("repair").describe("Sort of event"),
    text: Text.describe("What was recorded, in words"),
    parts: z.array(Line).max(50).describe("Parts used"),
    minutes: Minutes.optional().describe("Time the repair took, in minutes"),
  }),
  z.strictObject({
    ...common,
    kind: z.literal("proof").describe("Sort of event"),
    check: Check.describe("The check"),
    given: Given.describe("The reading as it was given"),
    verdict: Verdict.describe("Whether the reading is as in a machine without a fault"),
  }),
  z.strictObject({
    ...common,
    kind: z.literal("note").describe("Sort of event"),
    text: Text.describe("What was recorded, in words"),
  }),
  z.strictObject({
    ...common,
    kind: z.literal("closed").describe("Sort of event"),
    outcome: JobOutcome.describe("How the job ended"),
    notChecked: Text.optional().describe("What was not checked, in words"),
  }),
]);

/** A job record, `*.ohmjob.json`: the machine, and everything that happened, in order. All else is worked out from the events. */
export const JobRecord = z.strictObject({
  format: z.literal(JOB_FORMAT).describe("Name of the format"),
  version: z.literal(JOB_VERSION).describe("Version of the format"),
  id: Id.describe("Id of the job"),
  machine: Machine.describe("Harness data the job was worked with"),
  openedAt: Moment.describe("When the job was started, ISO 8601"),
  events: z.array(Event).max(10_000).describe("Everything that happened, in order; nothing is ever taken out"),
});

export type JobRecord = z.infer<typeof JobRecord>;
/** One thing that happened in a job. Nothing is ever taken out of a record: undoing is an event too. */
export type JobEvent = z.infer<typeof Event>;
/** A reading as it was given. */
export type EnteredReading = z.infer<typeof Given>;
/** A check as it is written down. */
export type RecordedCheck = z.infer<typeof Check>;
/** The complaint with its conditions. */
export type JobComplaint = z.infer<typeof Complaint>;
/** Which data a job was worked with. */
export type JobMachine = z.infer<typeof Machine>;
