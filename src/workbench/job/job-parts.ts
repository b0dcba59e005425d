import { z } from "zod";
import { facts } from "../answer-parts.ts";

/** A suspect with its share of the belief. */
export const suspect = z.object({
  /** Name of the repair that would mend it. */
  label: z.string(),
  share: z.number(),
  /** What the thing is, where it has a name of its own. */
  what: z.string().optional(),
  /** How it may have failed, most likely first. */
  faults: z.array(z.string()),
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
export const lead = z.object({
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

/** A check: what to do, where the leads go, what the healthy machine shows. */
export const check = z.object({
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
  leads: z.array(lead),
  /** What is looked at, moved, pulled or exchanged in a check without a meter. */
  of: facts.optional(),
  expected: z.string(),
  expectedLow: z.number().optional(),
  expectedHigh: z.number().optional(),
  /** The outcomes of a check without a meter. */
  choices: z.array(z.object({ id: z.string(), label: z.string() })),
});

/** One outcome that may come. */
export const outcome = z.object({
  label: z.string(),
  share: z.number(),
  leaves: z.array(z.object({ label: z.string(), share: z.number() })),
});

/** A check in one line. */
export const checkLine = z.object({
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
export const proof = z.object({
  number: z.number(),
  text: z.string(),
  /** The check to take again; absent for a trial of the function. */
  check: check.optional(),
  /** The last result, if it was done. */
  result: z.object({ text: z.string(), verdict: z.enum(["as-expected", "not-as-expected", "no-verdict"]) }).optional(),
});

/** Which job an answer is about, and how far it is. */
export const jobFacts = z.object({
  id: z.string(),
  openedAt: z.string(),
  stage: z.enum(["checking", "proving", "closed"]),
  readings: z.number(),
  /** Minutes planned for the checks done. */
  minutes: z.number(),
  /** Where the work stands: state of the machine, connectors that are off. */
  stands: z.object({ state: z.string(), unplugged: z.array(z.string()) }),
});
