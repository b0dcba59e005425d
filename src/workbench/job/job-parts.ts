import { z } from "zod";
import { facts } from "../answer-parts.ts";

/** A suspect with its share of the belief. */
export const suspect = z
  .object({
    label: z.string().describe("Name of the repair that would mend it"),
    share: z.number().describe("Probability, 0 to 1"),
    what: z.string().optional().describe("What the thing is, where it has a name of its own"),
    faults: z.array(z.string()).describe("How it may have failed, most likely first"),
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
export const lead = z.object({
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
      half: z.string().describe("Id of the side of the connector"),
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

/** A check: what to do, where the leads go, what the healthy machine shows. */
export const check = z
  .object({
    code: z.string().describe("Short name for the command line; the same as long as the complaint is the same"),
    key: z.string().describe("Names the check with its preparation; two checks with one key are the same evidence"),
    kind: z.enum(["volts", "ohms", "look", "wiggle", "drag", "swap"]).describe("Sort of check"),
    title: z.string().describe("The check in a few words"),
    steps: z.array(z.string()).describe("What to do, step by step"),
    state: z.string().describe("The state of the machine, by id and in words"),
    condition: z.string().describe("State of the machine, in words"),
    unplugged: z.array(z.string()).describe("Ids of the connectors that are disconnected for it"),
    toUnplug: z.array(z.string()).describe("Unplugged for this check and not so at the moment"),
    toPlugIn: z.array(z.string()).describe("Unplugged at the moment and plugged in again for this check"),
    leads: z.array(lead).describe("Where the leads go"),
    of: facts.optional().describe("What is looked at, moved, pulled or exchanged in a check without a meter"),
    expected: z.string().describe("Normal reading or outcome, in words"),
    expectedLow: z.number().optional().describe("Lower limit of the normal reading, in the unit of the test"),
    expectedHigh: z.number().optional().describe("Upper limit of the normal reading, in the unit of the test"),
    choices: z
      .array(
        z.object({ id: z.string().describe("Id of the outcome"), label: z.string().describe("The outcome in words") }),
      )
      .describe("The outcomes of a check without a meter"),
  })
  .describe("The check in full");

/** One outcome that may come. */
export const outcome = z.object({
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
export const checkLine = z.object({
  code: z.string().describe("Short name for the command line"),
  key: z.string().describe("Names the check with its preparation; two checks with one key are the same evidence"),
  title: z.string().describe("Title for people"),
  condition: z.string().describe("State of the machine for the test, in words"),
  unplugged: z.array(z.string()).describe("Ids of the connectors that are disconnected"),
  minutes: z.number().describe("Minutes from where the work stands"),
  bits: z.number().optional().describe("What it tells, in bits; absent if it tells nothing more or was done already"),
  isDone: z.boolean().describe("Whether it was done already"),
});

/** One proof of the repair. */
export const proof = z.object({
  number: z.number().describe("Number of the verification"),
  text: z.string().describe("What to do, in words"),
  check: check.optional().describe("The check to take again; absent for a trial of the function"),
  result: z
    .object({
      text: z.string().describe("The result in words"),
      verdict: z
        .enum(["as-expected", "not-as-expected", "no-verdict"])
        .describe("Whether the reading is as in a machine without a fault"),
    })
    .optional()
    .describe("The last result, if it was done"),
});

/** Which job an answer is about, and how far it is. */
export const jobFacts = z.object({
  id: z.string().describe("Id of the job"),
  openedAt: z.string().describe("When the job was started, ISO 8601"),
  stage: z.enum(["checking", "proving", "closed"]).describe("How far the job is"),
  readings: z.number().describe("Number of readings taken"),
  minutes: z.number().describe("Minutes planned for the checks done"),
  stands: z
    .object({
      state: z.string().describe("Id of the state of the machine"),
      unplugged: z.array(z.string()).describe("Ids of the connectors that are disconnected"),
    })
    .describe("Where the work stands: state of the machine, connectors that are off"),
});
