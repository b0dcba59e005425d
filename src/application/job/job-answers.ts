import { z } from "zod";
import { JobOutcome, Verdict } from "../../job-records/index.ts";
import { facts, header } from "../answer-parts.ts";
import type { Frozen } from "../frozen.ts";

const verdict = Verdict.describe("Whether the reading is as in a machine without a fault");

/** A possible cause with its probability. */
const suspect = z
  .object({
    label: z.string().describe("Name of the repair that would mend it"),
    share: z.number().describe("Probability, 0 to 1"),
    before: z.number().describe("Probability before the first reading, 0 to 1"),
    what: z.string().optional().describe("What the items are, where they have names of their own"),
    faults: z.array(z.string()).describe("How it may have failed, most likely first"),
    ways: z
      .array(
        z.object({
          label: z.string().describe("How it may have failed, in words"),
          factors: z
            .array(z.object({ factor: z.number().describe("Factor"), why: z.string().describe("Why, in words") }))
            .describe("What makes it more or less likely at the start"),
        }),
      )
      .describe("How it may have failed, with the reasons for the starting probability"),
    items: z.array(z.string()).describe("Ids of the wires, contacts and parts that are meant"),
    repairMinutes: z
      .number()
      .optional()
      .describe("Usual minutes of the repair, its verification included; absent for something else"),
  })
  .describe("A possible cause with its probability");

/** A wire as a person finds it. */
const wire = z.object({
  id: z.string().describe("Id of the wire"),
  colour: z.string().optional().describe("Colour code of the wire (IEC 60757), such as `GN/YE`"),
  colourName: z.string().optional().describe("Colour in words"),
  crossSectionMm2: z.number().optional().describe("Conductor size in mm²"),
  net: z.string().optional().describe("Signal or net label"),
});

/** One lead of the meter: where it goes and how. */
const lead = z.object({
  lead: z.enum(["red", "black"]).describe("Which lead: red (V/Ω), black (COM) or current clamp"),
  at: z.string().describe("Address the lead goes to"),
  of: facts.describe("The item the lead goes to"),
  how: z.string().describe("What to do, as a sentence"),
  class: z.string().describe("Class of the test point, from P0 (no contact) to P4 (exposed screw)"),
  method: z.string().describe("How the lead goes there, such as `clamp`, `in-line`, `front-probe`"),
  minutes: z.number().describe("Time needed, in minutes"),
  isEstimated: z.boolean().describe("Whether the time is an estimate, as the document gives none"),
  adapter: z
    .object({ id: z.string().describe("Id of the test adapter"), label: z.string().describe("Label for people") })
    .optional()
    .describe("Test adapter that is needed"),
  unplug: z.string().optional().describe("Id of the connector to disconnect first"),
  cavity: z
    .object({
      connector: z.string().describe("Id of the connector"),
      side: z.string().describe("Id of the side of the connector"),
      id: z.string().describe("Id of the cavity"),
      view: z
        .enum(["wire-side", "mating-side"])
        .describe("View in which the cavities are counted: wire-entry view or mating-face view"),
      seen: z.string().describe("Where it is found in that view"),
    })
    .optional()
    .describe("The cavity, where the lead goes to one, with the view it is counted in"),
  wires: z.array(wire).describe("Wires at the point"),
});

/** An outcome of a check without a meter. */
const choice = z.object({
  id: z.string().describe("Id of the outcome"),
  label: z.string().describe("The outcome in words"),
  isNormal: z.boolean().describe("Whether a machine without a fault shows it"),
});

/** A check: what to do, where the leads go, what a machine without a fault shows. */
const check = z
  .object({
    code: z.string().describe("Short name for the command line; the same as long as the complaint is the same"),
    key: z.string().describe("Names the check with its preparation; two checks with one key are the same evidence"),
    kind: z
      .enum(["dc-voltage", "resistance", "visual-inspection", "wiggle", "terminal-drag", "substitute"])
      .describe("Sort of check"),
    title: z.string().describe("The check in a few words"),
    steps: z.array(z.string()).describe("What to do, step by step"),
    state: z.string().describe("The state of the machine, by id and in words"),
    condition: z.string().describe("State of the machine, in words"),
    unplugged: z.array(z.string()).describe("Ids of the connectors that are disconnected for it"),
    toUnplug: z.array(z.string()).describe("Unplugged for this check and not so at the moment"),
    toPlugIn: z.array(z.string()).describe("Unplugged at the moment and plugged in again for this check"),
    isNewState: z.boolean().describe("Whether the machine has to be put into another state for it"),
    leads: z.array(lead).describe("Where the leads go"),
    points: z.array(z.string()).describe("Where it is done, by address: points of the leads, or what is looked at"),
    of: facts.optional().describe("What is looked at, moved, pulled or exchanged in a check without a meter"),
    expected: z.string().describe("Normal reading or outcome, in words"),
    expectedLow: z.number().optional().describe("Lower limit of the normal reading, in the unit of the test"),
    expectedHigh: z.number().optional().describe("Upper limit of the normal reading, in the unit of the test"),
    choices: z.array(choice).describe("The outcomes of a check without a meter"),
  })
  .describe("The check in full");

/** One outcome that may come. */
const outcome = z.object({
  label: z.string().describe("The outcome in words"),
  share: z.number().describe("Probability of the outcome, 0 to 1"),
  leaves: z
    .array(
      z.object({
        label: z.string().describe("Name of the possible cause"),
        share: z.number().describe("Probability that would remain, 0 to 1"),
      }),
    )
    .describe("What would remain, most likely first"),
});

/** A check in one line. */
const checkLine = z.object({
  code: z.string().describe("Short name for the command line"),
  key: z.string().describe("Names the check with its preparation; two checks with one key are the same evidence"),
  title: z.string().describe("Title for people"),
  condition: z.string().describe("State of the machine for the test, in words"),
  unplugged: z.array(z.string()).describe("Ids of the connectors that are disconnected"),
  minutes: z.number().describe("Minutes from where the work stands"),
  bits: z.number().optional().describe("What it tells, in bits; absent if it tells nothing more or was done already"),
  isDone: z.boolean().describe("Whether it was done already"),
});

/** One verification of the repair. */
const proof = z.object({
  number: z.number().describe("Number of the verification"),
  text: z.string().describe("What to do, in words"),
  check: check.optional().describe("The check to take again; absent for a trial of the function"),
  result: z
    .object({
      text: z.string().describe("The result in words"),
      verdict,
    })
    .optional()
    .describe("The last result, if it was done"),
});

/** Which job an answer is about, and how far it is. */
const jobFacts = z.object({
  id: z.string().describe("Id of the job"),
  openedAt: z.string().describe("When the job was started, ISO 8601"),
  stage: z.enum(["checking", "proving", "closed"]).describe("How far the job is"),
  readings: z.number().describe("Number of readings taken"),
  checks: z.number().describe("Number of permitted checks"),
  minutes: z.number().describe("Minutes planned for the checks done"),
  stands: z
    .object({
      state: z.string().describe("Id of the state of the machine"),
      unplugged: z.array(z.string()).describe("Ids of the connectors that are disconnected"),
    })
    .describe("Where the work stands: state of the machine, connectors that are off"),
});

const proofs = z.array(proof).describe("Verifications of the repair");
const notes = z.array(z.string()).describe("Remarks, in sentences");
const why = z.array(z.string()).describe("Reasons, in sentences");

/** What to do next, by kind. */
const suggestion = z
  .discriminatedUnion("kind", [
    z.object({
      kind: z.literal("check").describe("What comes next"),
      check,
      isChosen: z.boolean().describe("Whether a person named it in place of the proposed one"),
      minutes: z.number().describe("Time from here, in minutes"),
      bits: z
        .number()
        .optional()
        .describe("Information the check is expected to give, in bits; absent where it tells nothing more"),
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
    z.object({ kind: z.literal("no-electrical-fault").describe("What comes next"), why }),
    z.object({
      kind: z.literal("nothing-to-go-on").describe("What comes next"),
      unknown: z.array(z.string()).describe("What is not known, in sentences"),
    }),
    /** A repair was recorded: verify it. */
    z.object({
      kind: z.literal("prove").describe("What comes next"),
      proofs,
      text: z.string().describe("The answer in words, for people"),
      cause: z.string().optional().describe("The cause as it was recorded, in words"),
      goOn: z
        .object({
          of: z.string().describe("Name of the possible cause that was repaired"),
          factor: z.number().describe("Factor on the starting probability"),
          origin: z.string().describe("Why, in words"),
        })
        .optional()
        .describe("A verification failed: the change that makes what was repaired unlikely, to go on checking"),
    }),
    z.object({
      kind: z.literal("closed").describe("What comes next"),
      outcome: JobOutcome.describe("How the job ended"),
      text: z.string().describe("The answer in words, for people"),
    }),
  ])
  .describe("What comes next");

/** What was recorded by the command that gives this answer. */
const written = z.object({
  events: z.array(z.string()).describe("Ids of the new events"),
  text: z.string().describe("What was recorded, in words"),
  verdict: verdict.optional(),
});

/** What to do next in a job. */
export const JobNextAnswer = z.object({
  kind: z.literal("job-next").describe("Sort of answer"),
  ...header,
  job: jobFacts.describe("The job and how far it is"),
  written: written.optional().describe("What the step before recorded; absent where none was taken"),
  suggestion,
  suspects: z.array(suspect).describe("Possible causes, most likely first"),
  unknown: z.array(z.string()).describe("Codes and items of the complaint that lead nowhere in the data"),
  missing: z.array(z.string()).describe("What is missing in the data for a meter test, where there is none"),
});

/** Every permitted check of a job. */
export const JobChecksAnswer = z.object({
  kind: z.literal("job-checks").describe("Sort of answer"),
  ...header,
  job: jobFacts.describe("The job and how far it is"),
  count: z.number().describe("How many fit the words that were asked for; all where none were"),
  checks: z.array(checkLine).describe("Permitted checks, those that separate best for their time first"),
});

/** A job as it stands. */
export const JobShowAnswer = z.object({
  kind: z.literal("job").describe("Sort of answer"),
  ...header,
  job: jobFacts.describe("The job and how far it is"),
  complaint: z.array(z.string()).describe("The complaint, line by line"),
  codes: z
    .array(
      z.object({
        code: z.string().describe("Id of the trouble code"),
        status: z.enum(["active", "previously-active", "not-present"]).describe("Status of the code"),
      }),
    )
    .describe("Trouble codes, as last said"),
  symptoms: z
    .array(
      z.object({
        item: z.string().describe("Id of the item"),
        is: z.enum(["bad", "good"]).describe("Whether it does its work"),
      }),
    )
    .describe("What works and what does not, as last said"),
  adapters: z.array(z.string()).optional().describe("Ids of the test adapters"),
  suspects: z.array(suspect).describe("Possible causes, most likely first"),
  log: z
    .array(
      z.object({
        event: z.string().describe("Id of the event"),
        at: z.string().describe("When, ISO 8601"),
        what: z.string().describe("Sort of event"),
        name: z.string().describe("What a person calls that sort of event"),
        text: z.string().describe("The event in words"),
        verdict: verdict.optional().describe("Whether the reading is as in a machine without a fault"),
        isUndone: z.boolean().describe("Whether it was undone"),
        undoneBy: z.string().optional().describe("Id of the event that took it back; undoing that one restores it"),
        reading: z
          .object({
            number: z.number().describe("Number of the reading, from 1"),
            key: z.string().describe("Names the check with its preparation"),
            isMeter: z.boolean().describe("Whether it is read with a meter"),
            point: z.string().describe("Where, in words"),
            condition: z.string().describe("State of the machine and preparation, in words"),
            expected: z.string().describe("Normal reading or outcome, in words"),
            measured: z.string().describe("What was measured, in words"),
            choices: z.array(choice).describe("What may be given in its place, for a check without a meter"),
          })
          .optional()
          .describe("A reading that stands; absent for any other event"),
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
    .describe("Changes to the starting probabilities"),
});

/** The starting probability of each possible fault, and why. */
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

/** The repair report of a job. */
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
        .array(
          z.object({
            label: z.string().describe("What is to be filled in"),
            text: z.string().describe("What is known of it; empty where it is to be written by hand"),
          }),
        )
        .describe("Lines to fill in by hand"),
    })
    .describe("The same as a form"),
});

/** Why a job was not opened or a step not taken; nothing was recorded. */
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
      "unproven",
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
        ways: z
          .array(
            z.object({
              label: z.string().describe("What is meant, in words"),
              write: z.string().describe("How to write it"),
            }),
          )
          .optional()
          .describe("How what was typed can be taken, where it can be taken in several ways"),
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
/** One verification of the repair. */
export type VerificationFacts = Frozen<z.infer<typeof proof>>;
/** A possible cause with its probability. */
export type PossibleCauseFacts = Frozen<z.infer<typeof suspect>>;
/** One problem of what was typed. */
export type JobProblem = JobRefusal["problems"][number];
