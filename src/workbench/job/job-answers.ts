import { z } from "zod";
import { header } from "../answer-parts.ts";
import type { Frozen } from "../frozen.ts";
import { check, checkLine, jobFacts, type lead, outcome, proof, suspect } from "./job-parts.ts";

const proofs = z.array(proof);
const notes = z.array(z.string());
const why = z.array(z.string());

/** What to do next, by kind. */
const suggestion = z.discriminatedUnion("kind", [
  z.object({
    kind: z.literal("check"),
    check,
    minutes: z.number(),
    bits: z.number(),
    /** Minutes of all checks and of the repair from here, on average. */
    expectedMinutes: z.number(),
    why,
    outcomes: z.array(outcome),
    others: z.array(checkLine),
  }),
  z.object({ kind: z.literal("recheck"), check, why }),
  z.object({ kind: z.literal("prove-meter"), check, why }),
  z.object({ kind: z.literal("repair"), suspect, notes, proofs }),
  z.object({
    kind: z.literal("repair-in-order"),
    reason: z.enum(["inseparable", "quicker-than-checking"]),
    order: z.array(suspect),
    minutes: z.number(),
    notes,
    proofs,
  }),
  z.object({ kind: z.literal("look-wider"), why }),
  z.object({ kind: z.literal("nothing-to-go-on"), unknown: z.array(z.string()) }),
  /** A repair was written down: prove it. */
  z.object({ kind: z.literal("prove"), proofs, text: z.string() }),
  z.object({ kind: z.literal("closed"), outcome: z.enum(["mended", "not-found", "passed-on"]), text: z.string() }),
]);

/** What was written down by the command that gives this answer. */
const written = z.object({
  /** Ids of the new events. */
  events: z.array(z.string()),
  text: z.string(),
  verdict: z.enum(["as-expected", "not-as-expected", "no-verdict"]).optional(),
});

/** What to do next in a job. */
export const JobNextAnswer = z.object({
  kind: z.literal("job-next"),
  ...header,
  job: jobFacts,
  written: written.optional(),
  suggestion,
  suspects: z.array(suspect),
  /** What is missing in the data for a meter test, where there is none. */
  missing: z.array(z.string()),
});

/** Every permitted check of a job. */
export const JobChecksAnswer = z.object({
  kind: z.literal("job-checks"),
  ...header,
  job: jobFacts,
  checks: z.array(checkLine),
});

const verdict = z.enum(["as-expected", "not-as-expected", "no-verdict"]);

/** A job as it stands. */
export const JobShowAnswer = z.object({
  kind: z.literal("job"),
  ...header,
  job: jobFacts,
  complaint: z.array(z.string()),
  adapters: z.array(z.string()).optional(),
  suspects: z.array(suspect),
  log: z.array(
    z.object({
      event: z.string(),
      at: z.string(),
      what: z.string(),
      text: z.string(),
      verdict: verdict.optional(),
      isUndone: z.boolean(),
      isCorrected: z.boolean(),
      /** False for a reading of a check that this data of the machine no longer has. */
      counts: z.boolean(),
    }),
  ),
  /** Weights that a person changed beforehand. */
  weights: z.array(
    z.object({ event: z.string(), of: z.string(), factor: z.number(), origin: z.string(), suspects: z.number() }),
  ),
});

/** What each fault that is looked for weighs before the first reading, and why. */
export const JobWeightsAnswer = z.object({
  kind: z.literal("job-weights"),
  ...header,
  job: jobFacts,
  /** Where the starting weights come from. */
  priorOrigin: z.string(),
  somethingElse: z.number(),
  weights: z.array(
    z.object({
      id: z.string(),
      label: z.string(),
      repair: z.string(),
      mode: z.string(),
      weight: z.number(),
      factors: z.array(z.object({ factor: z.number(), why: z.string() })),
    }),
  ),
});

/** A job as it is written up. */
export const JobReportAnswer = z.object({
  kind: z.literal("job-report"),
  ...header,
  job: jobFacts,
  /** The write-up in the three parts complaint, cause, correction. */
  text: z.string(),
  sheet: z.object({
    title: z.string(),
    machine: z.string(),
    complaint: z.array(z.string()),
    cautions: z.array(z.string()),
    rows: z.array(
      z.object({
        number: z.number(),
        point: z.string(),
        condition: z.string(),
        expected: z.string(),
        measured: z.string(),
        verdict: z.string(),
      }),
    ),
    cause: z.string(),
    repairs: z.array(z.string()),
    blanks: z.array(z.object({ label: z.string() })),
  }),
});

/** Why a job was not opened or a step not taken; nothing was written down. */
export const JobRefusal = z.object({
  kind: z.literal("job-refused"),
  reason: z.enum([
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
  ]),
  text: z.string(),
  problems: z.array(z.object({ at: z.string(), message: z.string(), hint: z.string() })),
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
