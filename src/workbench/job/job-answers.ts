import { z } from "zod";
import { facts, header } from "../answer-parts.ts";
import type { Frozen } from "../frozen.ts";

/** Whether what was read is as in the healthy machine. */
const verdict = z.enum(["as-expected", "not-as-expected", "no-verdict"]);

/** A suspect with its share of the belief. */
const suspect = z.object({
  /** Name of the repair that would mend it. */
  label: z.string(),
  share: z.number(),
  /** Its share before the first reading. */
  before: z.number(),
  /** What the things are, where they have names of their own. */
  what: z.string().optional(),
  /** How it may have failed, most likely first. */
  faults: z.array(z.string()),
  /** The same with what makes it more or less likely beforehand. */
  ways: z.array(z.object({ label: z.string(), factors: z.array(z.object({ factor: z.number(), why: z.string() })) })),
  /** Wires, contacts and parts that are meant, by id. */
  items: z.array(z.string()),
  /** Usual minutes of the repair, its proof included; absent for "something else". */
  repairMinutes: z.number().optional(),
});

/** A wire as a person finds it. */
const wire = z.object({
  id: z.string(),
  colour: z.string().optional(),
  colourName: z.string().optional(),
  crossSectionMm2: z.number().optional(),
  net: z.string().optional(),
});

/** One lead of the meter: where it goes and how. */
const lead = z.object({
  lead: z.enum(["red", "black"]),
  at: z.string(),
  of: facts,
  how: z.string(),
  class: z.string(),
  method: z.string(),
  minutes: z.number(),
  isEstimated: z.boolean(),
  adapter: z.object({ id: z.string(), label: z.string() }).optional(),
  unplug: z.string().optional(),
  /** The cavity, where the lead goes to one, with the view it is counted in. */
  cavity: z
    .object({
      connector: z.string(),
      half: z.string(),
      id: z.string(),
      view: z.enum(["wire-side", "mating-side"]),
      /** Where it is found in that view. */
      seen: z.string(),
    })
    .optional(),
  wires: z.array(wire),
});

/** An outcome of a check without a meter. */
const choice = z.object({ id: z.string(), label: z.string(), isHealthy: z.boolean() });

/** A check: what to do, where the leads go, what the healthy machine shows. */
const check = z.object({
  /** Short name for the command line; the same as long as the complaint is the same. */
  code: z.string(),
  key: z.string(),
  kind: z.enum(["volts", "ohms", "look", "wiggle", "drag", "swap"]),
  title: z.string(),
  steps: z.array(z.string()),
  /** The state of the machine, by id and in words. */
  state: z.string(),
  condition: z.string(),
  unplugged: z.array(z.string()),
  /** Unplugged for this check and not so at the moment. */
  toUnplug: z.array(z.string()),
  /** Unplugged at the moment and plugged in again for this check. */
  toPlugIn: z.array(z.string()),
  /** Another state of the machine than it is in. */
  isNewState: z.boolean(),
  leads: z.array(lead),
  /** Where it is done, by address: the points of the leads, or what is looked at. */
  points: z.array(z.string()),
  /** What is looked at, moved, pulled or exchanged in a check without a meter. */
  of: facts.optional(),
  expected: z.string(),
  expectedLow: z.number().optional(),
  expectedHigh: z.number().optional(),
  /** The outcomes of a check without a meter. */
  choices: z.array(choice),
});

/** One outcome that may come. */
const outcome = z.object({
  label: z.string(),
  share: z.number(),
  leaves: z.array(z.object({ label: z.string(), share: z.number() })),
});

/** A check in one line. */
const checkLine = z.object({
  code: z.string(),
  key: z.string(),
  title: z.string(),
  condition: z.string(),
  unplugged: z.array(z.string()),
  /** Minutes from where the work stands. */
  minutes: z.number(),
  /** What it tells, in bits; absent if it tells nothing more or was done already. */
  bits: z.number().optional(),
  isDone: z.boolean(),
});

/** One proof of the repair. */
const proof = z.object({
  number: z.number(),
  text: z.string(),
  /** The check to take again; absent for a trial of the function. */
  check: check.optional(),
  /** The last result, if it was done. */
  result: z.object({ text: z.string(), verdict }).optional(),
});

/** Which job an answer is about, and how far it is. */
const jobFacts = z.object({
  id: z.string(),
  openedAt: z.string(),
  stage: z.enum(["checking", "proving", "closed"]),
  readings: z.number(),
  /** Permitted checks. */
  checks: z.number(),
  /** Minutes planned for the checks done. */
  minutes: z.number(),
  /** Where the work stands: state of the machine, connectors that are off. */
  stands: z.object({ state: z.string(), unplugged: z.array(z.string()) }),
});

const proofs = z.array(proof);
const notes = z.array(z.string());
const why = z.array(z.string());

/** What to do next, by kind. */
const suggestion = z.discriminatedUnion("kind", [
  z.object({
    kind: z.literal("check"),
    check,
    /** Taken in place of the proposed one because a person named it. */
    isChosen: z.boolean(),
    minutes: z.number(),
    /** What it tells, in bits; absent where it tells nothing more. */
    bits: z.number().optional(),
    /** Minutes of all checks and of the repair from here, on average; absent for a check that a person named. */
    expectedMinutes: z.number().optional(),
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
  z.object({
    kind: z.literal("prove"),
    proofs,
    text: z.string(),
    cause: z.string().optional(),
    /** A proof failed: the weight that makes what was repaired unlikely, so that checking goes on. */
    goOn: z.object({ of: z.string(), factor: z.number(), origin: z.string() }).optional(),
  }),
  z.object({ kind: z.literal("closed"), outcome: z.enum(["mended", "not-found", "passed-on"]), text: z.string() }),
]);

/** What was written down by the command that gives this answer. */
const written = z.object({
  /** Ids of the new events. */
  events: z.array(z.string()),
  text: z.string(),
  verdict: verdict.optional(),
});

/** What to do next in a job. */
export const JobNextAnswer = z.object({
  kind: z.literal("job-next"),
  ...header,
  job: jobFacts,
  written: written.optional(),
  suggestion,
  suspects: z.array(suspect),
  /** Codes and functions of the complaint that lead nowhere in the data. */
  unknown: z.array(z.string()),
  /** What is missing in the data for a meter test, where there is none. */
  missing: z.array(z.string()),
});

/** Every permitted check of a job. */
export const JobChecksAnswer = z.object({
  kind: z.literal("job-checks"),
  ...header,
  job: jobFacts,
  /** So many fit the words asked for; all of them where none were. */
  count: z.number(),
  checks: z.array(checkLine),
});

/** A job as it stands. */
export const JobShowAnswer = z.object({
  kind: z.literal("job"),
  ...header,
  job: jobFacts,
  complaint: z.array(z.string()),
  codes: z.array(z.object({ code: z.string(), status: z.enum(["active", "stored", "absent"]) })),
  symptoms: z.array(z.object({ thing: z.string(), is: z.enum(["bad", "good"]) })),
  adapters: z.array(z.string()).optional(),
  suspects: z.array(suspect),
  log: z.array(
    z.object({
      event: z.string(),
      at: z.string(),
      what: z.string(),
      /** What a person calls that sort of event. */
      name: z.string(),
      text: z.string(),
      verdict: verdict.optional(),
      isUndone: z.boolean(),
      /** The event that took it back; taking that one back restores this one. */
      undoneBy: z.string().optional(),
      /** A reading that stands, and what may be given in its place. */
      reading: z
        .object({
          number: z.number(),
          key: z.string(),
          isMeter: z.boolean(),
          point: z.string(),
          condition: z.string(),
          expected: z.string(),
          measured: z.string(),
          choices: z.array(choice),
        })
        .optional(),
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
    blanks: z.array(z.object({ label: z.string(), text: z.string() })),
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
    "unproven",
    "not-saved",
  ]),
  text: z.string(),
  problems: z.array(
    z.object({
      at: z.string(),
      message: z.string(),
      hint: z.string(),
      /** How what was typed can be taken, where it can be taken in several ways. */
      ways: z.array(z.object({ label: z.string(), write: z.string() })).optional(),
    }),
  ),
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
