import { z } from "zod";
import type { Frozen } from "../frozen.ts";

/** What a gap stops: following wires, expected readings, meter tests, jobs. */
export const BLOCKED = ["tracing", "readings", "meter tests", "jobs"] as const;

/** What is not known; those in {@link ANSWERABLE} are answered with one value. */
const gapWhat = z.enum([
  "wires",
  "far-end",
  "inside",
  "supply",
  "ground",
  "sealed",
  "permits",
  "terminal-size",
  "access",
  "zone",
  "hazards",
  "conditions",
  "net-kind",
  "adapter-points",
]);

/** One thing that the data leaves open, as a question that a person at the machine can answer. */
export const Gap = z.object({
  /** Id of the item; `machine` for the whole machine. */
  about: z.string(),
  what: gapWhat,
  blocks: z.array(z.enum(BLOCKED)),
  /** One plain sentence. */
  question: z.string(),
  /** Values that are offered; any other that `answer` understands may be given as well. Empty where one value is no answer. */
  choices: z.array(z.object({ value: z.string(), label: z.string() })),
  /** Where it is entered, in words. */
  enter: z.string(),
});

/** The gaps of one item. */
export const ItemGaps = z.object({
  about: z.string(),
  sort: z.enum(["machine", "connector", "net", "wire", "component", "state", "zone", "adapter"]),
  label: z.string(),
  gaps: z.array(Gap),
  /** Other connectors of the same shape that have the same gaps; one answer may be given for all. */
  alike: z.array(z.string()),
});

/** Two or more wires with an open end that may be one; a person decides. */
export const JoinProposal = z.object({
  /** Name of the proposal, such as `J1`; the same document gives the same names. */
  id: z.string(),
  wires: z.array(z.string()),
  /** Where their known ends are. */
  points: z.array(z.string()),
  /** `wire`: the two are the ends of one wire; `splice`: three or more meet in a splice. */
  as: z.enum(["wire", "splice"]),
  evidence: z.array(z.string()),
});

/** What can be asked of a machine yet, and what is missing for the rest. */
export const GapsReport = z.object({
  kind: z.literal("gaps"),
  machine: z.string(),
  summary: z.array(z.string()),
  items: z.array(ItemGaps),
  joins: z.array(JoinProposal),
});

export type Gap = Frozen<z.infer<typeof Gap>>;
/** What a gap leaves open. */
export type GapWhat = Gap["what"];
export type ItemGaps = Frozen<z.infer<typeof ItemGaps>>;
export type JoinProposal = Frozen<z.infer<typeof JoinProposal>>;
export type GapsReport = Frozen<z.infer<typeof GapsReport>>;
