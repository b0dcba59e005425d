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
  about: z.string().describe("Id of the item; `machine` for the whole machine"),
  what: gapWhat.describe("What is not known"),
  blocks: z.array(z.enum(BLOCKED)).describe("Questions that this gap blocks"),
  question: z.string().describe("One plain sentence"),
  choices: z
    .array(
      z.object({ value: z.string().describe("The value to give"), label: z.string().describe("Label for people") }),
    )
    .describe(
      "Values that are offered; any other that `answer` understands may be given as well. Empty where one value is no answer",
    ),
  enter: z.string().describe("Where it is entered, in words"),
});

/** The gaps of one item. */
export const ItemGaps = z.object({
  about: z.string().describe("Id of the item; `machine` for the whole machine"),
  sort: z
    .enum(["machine", "connector", "net", "wire", "component", "state", "zone", "adapter"])
    .describe("Sort of item"),
  label: z.string().describe("Label for people"),
  gaps: z.array(Gap).describe("What the data leaves open"),
  alike: z
    .array(z.string())
    .describe("Other connectors of the same shape that have the same gaps; one answer may be given for all"),
});

/** Two or more wires with an open end that may be one; a person decides. */
export const JoinProposal = z.object({
  id: z.string().describe("Name of the proposal, such as `J1`; the same document gives the same names"),
  net: z.string().describe("Signal or function that they have in common"),
  wires: z.array(z.string()).describe("Ids of the wires; a pin without a wire has none"),
  points: z.array(z.string()).describe("Where their known ends are"),
  as: z
    .enum(["wire", "splice"])
    .describe("`wire`: the two are the ends of one wire; `splice`: three or more meet in a splice"),
  evidence: z.array(z.string()).describe("Why they belong together, in words"),
});

/** What you can ask about a machine now, and what is missing for the rest. */
export const GapsReport = z.object({
  kind: z.literal("gaps").describe("Sort of answer"),
  machine: z.string().describe("Name of the machine"),
  summary: z.array(z.string()).describe("What can be asked of the machine, in sentences"),
  items: z.array(ItemGaps).describe("Items with gaps"),
  joins: z.array(JoinProposal).describe("Wires with one known end that may belong together"),
});

export type Gap = Frozen<z.infer<typeof Gap>>;
/** What a gap leaves open. */
export type GapWhat = Gap["what"];
export type ItemGaps = Frozen<z.infer<typeof ItemGaps>>;
export type JoinProposal = Frozen<z.infer<typeof JoinProposal>>;
export type GapsReport = Frozen<z.infer<typeof GapsReport>>;
