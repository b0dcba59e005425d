import { z } from "zod";
import { header } from "../answer-parts.ts";
import type { Frozen } from "../frozen.ts";
import { check, checkLine, jobFacts, type lead, outcome, proof, suspect } from "./job-parts.ts";

const proofs = z.array(proof).describe("Verifications of the repair");
const notes = z.array(z.string()).describe("Remarks, in sentences");
const why = z.array(z.string()).describe("Reasons, in sentences");

/** What to do next, by kind. */
const suggestion = z
  .discriminatedUnion("kind", [
    z.object({
      kind: z.literal("check").describe("What comes next"),
      check,
      minutes: z.number().describe("Time from here, in minutes"),
      bits: z.number().describe("Information the check is expected to give, in bits"),
      expectedMinutes: z.number().describe("Minutes of all checks and of the repair from here, on average"),
      why,
      outcomes: z.array(outcome).describe("What may come, with what each would leave"),
      others: z.array(checkLine).describe("Other permitted checks"),
    }),
    z.object({ kind: z.literal("recheck").describe("What comes next"), check, why }),
    z.object({ kind: z.literal("prove-meter").describe("What comes next"), check, why }),
    z.object({ kind: z.literal("repair").describe("What comes next"), suspect, notes, proofs }),
    z.object({
      kind: z.literal("repair-in-order").describe("What comes next"),
      reason: z.enum(["inseparable", "quicker-than-checking"]).describe("Why repairs come in order"),
      order: z.array(suspect).describe("Possible causes in the order of repair"),
      minutes: z.number().describe("Time from here, in minutes"),
      notes,
      proofs,
    }),
    z.object({ kind: z.literal("look-wider").describe("What comes next"), why }),
    z.object({
      kind: z.literal("nothing-to-go-on").describe("What comes next"),
      unknown: z.array(z.string()).describe("What is not known, in sentences"),
    }),
    /** A repair was written down: prove it. */
    z.object({
      kind: z.literal("prove").describe("What comes next"),
      proofs,
      text: z.string().describe("The answer in words, for people"),
    }),
    z.object({
      kind: z.literal("closed").describe("What comes next"),
      outcome: z.enum(["mended", "not-found", "passed-on"]).describe("How the job ended"),
      text: z.string().describe("The answer in words, for people"),
    }),
  ])
  .describe("What comes next");

/** What was written down by the command that gives this answer. */
const written = z.object({
  events: z.array(z.string()).describe("Ids of the new events"),
  text: z.string().describe("What was recorded, in words"),
  verdict: z
    .enum(["as-expected", "not-as-expected", "no-verdict"])
    .optional()
    .describe("Whether the reading is as in a machine without a fault"),
});

/** What to do next in a job. */
export const JobNextAnswer = z.object({
  kind: z.literal("job-next").describe("Sort of answer"),
  ...header,
  job: jobFacts.describe("The job and how far it is"),
  written: written.optional().describe("What the step before recorded; absent where none was taken"),
  suggestion,
  suspects: z.array(suspect).describe("Possible causes, most likely first"),
  missing: z.array(z.string()).describe("What is missing in the data for a meter test, where there is none"),
});

/** Every permitted check of a job. */
export const JobChecksAnswer = z.object({
  kind: z.literal("job-checks").describe("Sort of answer"),
  ...header,
  job: jobFacts.describe("The job and how far it is"),
  checks: z.array(checkLine).describe("Permitted checks, those that separate best for their time first"),
});

const verdict = z
  .enum(["as-expected", "not-as-expected", "no-verdict"])
  .describe("Whether the reading is as in a machine without a fault");

/** A job as it stands. */
export const JobShowAnswer = z.object({
  kind: z.literal("job").describe("Sort of answer"),
  ...header,
  job: jobFacts.describe("The job and how far it is"),
  complaint: z.array(z.string()).describe("The complaint, line by line"),
  adapters: z.array(z.string()).optional().describe("Ids of the test adapters"),
  suspects: z.array(suspect).describe("Possible causes, most likely first"),
  log: z
    .array(
      z.object({
        event: z.string().describe("Id of the event"),
        at: z.string().describe("When, ISO 8601"),
        what: z.string().describe("Sort of event"),
        text: z.string().describe("The event in words"),
        verdict: verdict.optional().describe("Whether the reading is as in a machine without a fault"),
        isUndone: z.boolean().describe("Whether it was undone"),
        isCorrected: z.boolean().describe("Whether it was corrected"),
        counts: z.boolean().describe("False for a reading of a check that this data of the machine no longer has"),
      }),
    )
    .describe("Everything that was recorded, in order"),
  weights: z
    .array(
      z.object({
        event: z.string().describe("Id of the event"),
        of: z.string().describe("Id or sort that was changed"),
        factor: z.number().describe("Factor on the starting probability"),
        origin: z.string().describe("Why, in words"),
        suspects: z.number().describe("How many possible causes it changes"),
      }),
    )
    .describe("Weights that a person changed beforehand"),
});

/** What each fault that is looked for weighs before the first reading, and why. */
export const JobWeightsAnswer = z.object({
  kind: z.literal("job-weights").describe("Sort of answer"),
  ...header,
  job: jobFacts.describe("The job and how far it is"),
  priorOrigin: z.string().describe("Where the starting weights come from"),
  somethingElse: z.number().describe("Starting probability of a cause outside the list, 0 to 1"),
  weights: z
    .array(
      z.object({
        id: z.string().describe("Id of the possible fault"),
        label: z.string().describe("Label for people"),
        repair: z.string().describe("Name of the repair"),
        mode: z.string().describe("How it failed"),
        weight: z.number().describe("Starting weight"),
        factors: z
          .array(z.object({ factor: z.number().describe("Factor"), why: z.string().describe("Why, in words") }))
          .describe("What the weight is made of"),
      }),
    )
    .describe("Possible faults with their starting weight"),
});

/** A job as it is written up. */
export const JobReportAnswer = z.object({
  kind: z.literal("job-report").describe("Sort of answer"),
  ...header,
  job: jobFacts.describe("The job and how far it is"),
  text: z.string().describe("The write-up in the three parts complaint, cause, correction"),
  sheet: z
    .object({
      title: z.string().describe("Title for people"),
      machine: z.string().describe("Name of the machine"),
      complaint: z.array(z.string()).describe("The complaint, line by line"),
      cautions: z.array(z.string()).describe("Warnings to read before touching the machine"),
      rows: z
        .array(
          z.object({
            number: z.number().describe("Number of the line, from 1"),
            point: z.string().describe("Where, in words"),
            condition: z.string().describe("State of the machine, in words"),
            expected: z.string().describe("Normal reading or outcome, in words"),
            measured: z.string().describe("What was measured, in words"),
            verdict: z.string().describe("Verdict, in words"),
          }),
        )
        .describe("Readings, line by line"),
      cause: z.string().describe("The cause, in words"),
      repairs: z.array(z.string()).describe("Repairs, line by line"),
      blanks: z
        .array(z.object({ label: z.string().describe("What is to be filled in") }))
        .describe("Lines to fill in by hand"),
    })
    .describe("The same as a form"),
});

/** Why a job was not opened or a step not taken; nothing was written down. */
export const JobRefusal = z.object({
  kind: z.literal("job-refused").describe("Sort of answer"),
  reason: z
    .enum([
      "wrong-input",
      "unreadable",
      "exists",
      "changed-data",
      "other-machine",
      "no-machine",
      "no-build",
      "forbidden",
      "out-of-turn",
      "not-saved",
    ])
    .describe("Why nothing was recorded"),
  text: z.string().describe("Why nothing was recorded, in words"),
  problems: z
    .array(
      z.object({
        at: z.string().describe("Where in the request"),
        message: z.string().describe("What is wrong, in words"),
        hint: z.string().describe("What to do about it, in words"),
      }),
    )
    .describe("Everything that is wrong, all at once"),
});

export type JobNextAnswer = Frozen<z.infer<typeof JobNextAnswer>>;
export type JobChecksAnswer = Frozen<z.infer<typeof JobChecksAnswer>>;
export type JobShowAnswer = Frozen<z.infer<typeof JobShowAnswer>>;
export type JobWeightsAnswer = Frozen<z.infer<typeof JobWeightsAnswer>>;
export type JobReportAnswer = Frozen<z.infer<typeof JobReportAnswer>>;
export type JobRefusal = Frozen<z.infer<typeof JobRefusal>>;
/** Any answer about a job. */
export type JobAnswer =
  JobNextAnswer | JobChecksAnswer | JobShowAnswer | JobWeightsAnswer | JobReportAnswer | JobRefusal;
/** What to do next. */
export type JobSuggestion = JobNextAnswer["suggestion"];
/** A check in full. */
export type CheckFacts = Frozen<z.infer<typeof check>>;
/** A check in one line. */
export type CheckLine = Frozen<z.infer<typeof checkLine>>;
/** One lead of the meter. */
export type LeadPlace = Frozen<z.infer<typeof lead>>;
/** One proof of the repair. */
export type ProofFacts = Frozen<z.infer<typeof proof>>;
/** A suspect with its share. */
export type SuspectFacts = Frozen<z.infer<typeof suspect>>;
/** One thing that is wrong with what was typed. */
export type JobProblem = JobRefusal["problems"][number];
