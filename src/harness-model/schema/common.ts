import { z } from "zod";
import { BOUNDS, MOST_ITEMS, within } from "./bounds.ts";

/** Longest id a document may use, in characters. */
const ID_LENGTH = 64;
/** Longest label or sentence a document may hold, in characters. */
const TEXT_LENGTH = 600;

const idText = z
  .string()
  .max(ID_LENGTH)
  .regex(
    /^[\p{L}\p{N}][\p{L}\p{N}._+-]*$/u,
    "An id starts with a letter or digit and holds letters, digits and . _ + - only",
  );

/** Id of a wire, such as `W89`. */
export const WireId = idText.brand<"WireId">();
/** Id of a connector, such as `A1.X1`. */
export const ConnectorId = idText.brand<"ConnectorId">();
/** Id of a component, such as `B3`. */
export const ComponentId = idText.brand<"ComponentId">();
/** Id of a splice, such as `SP11`. */
export const SpliceId = idText.brand<"SpliceId">();
/** Id of a stud, post, ring or ground point, such as `G2+`. */
export const TerminalStudId = idText.brand<"StudId">();
/** Id of a routed segment between two places, such as `SG04`. */
export const SegmentId = idText.brand<"SegmentId">();
/** Id of a place where segments meet or end, such as `BP2`. */
export const TopologyNodeId = idText.brand<"PlaceId">();
/** Id of a zone of the machine, such as `Z1`. */
export const ZoneId = idText.brand<"ZoneId">();
/** Id of an option, such as `OPT-COLD`. */
export const OptionId = idText.brand<"OptionId">();
/** Id of a build (a named set of options). */
export const BuildId = idText.brand<"BuildId">();
/** Id of a machine state, such as `KOEO`. */
export const StateId = idText.brand<"StateId">();
/** Any id that is unique only inside its owner: an element, a half, a cavity, an adapter, a code, a caution. */
export const LocalId = idText;

/** A sentence or label for people; shown as text, never as markup. */
export const Text = z.string().max(TEXT_LENGTH);

/**
 * Where a point lies, as written in the document: `A1.X1:36`, `A1.X1.device:36`, `XC1m:3`, `SP11`, `G2+`, or `#name` for a
 * point inside the same component. Resolved against the document by the cross-reference checks.
 */
export const AddressText = z
  .string()
  .min(1)
  .max(2 * ID_LENGTH);

/** An option expression such as `A & (B | !C)`; absent means fitted on every build. */
export const When = z.string().max(TEXT_LENGTH);

/** A part as it is ordered or stocked. */
export const Part = z.strictObject({
  number: Text.min(1).describe("Part number, as it is ordered"),
  maker: Text.min(1).optional().describe("Company whose number it is"),
  description: Text.min(1).optional().describe("What the part is, in the words of the data"),
});

/** Where a piece of data came from and who checked it. */
export const Origin = z.strictObject({
  source: Text.describe("Where it comes from, in words"),
  checkedBy: Text.optional().describe("Who checked it"),
  checkedOn: Text.optional().describe("When it was checked"),
});

/** A danger of a place; `states` names the machine states in which it holds, absent means always. */
export const Hazard = z.strictObject({
  kind: z
    .enum([
      "rotating",
      "crush",
      "hot",
      "boosted-voltage",
      "fuel",
      "oil",
      "wet",
      "flexing",
      "chafe",
      "corrosive",
      "step",
      "other",
    ])
    .describe("Sort of hazard"),
  text: Text.describe("The hazard in words"),
  states: z
    .array(StateId)
    .max(MOST_ITEMS.few)
    .optional()
    .describe("Ids of the states in which it holds; absent means always"),
});

/**
 * How long it takes a trained person to reach a thing, what must come off, and in which states it can be reached: those listed, or
 * `any`. Without `states` that is not known, and only states with the battery disconnected count.
 */
export const Access = z.strictObject({
  minutes: within(BOUNDS.accessMinutes).describe("Time to reach it, in minutes, for a trained person"),
  remove: Text.optional().describe("What to remove to reach it"),
  states: z
    .union([z.literal("any"), z.array(StateId).max(MOST_ITEMS.few)])
    .optional()
    .describe("Ids of the states in which it can be reached, or `any`; absent means not known"),
});

/**
 * What a person has said about the machine where the data left it open, and who said it when. `about` is an address, a wire or a
 * connector, `machine` for the whole machine. `harmless`: the line is neither airbag nor high voltage, although a name suggests it;
 * of the others the value stands in its own field, and the statement is its origin.
 */
export const Statement = z.strictObject({
  about: AddressText.describe("Address, id of a wire, connector or component, or `machine`"),
  what: z
    .enum([
      "harmless",
      "sealed",
      "permits",
      "terminal-size",
      "access",
      "net-kind",
      "conditions",
      "zone",
      "inside",
      "adapter",
    ])
    .describe("What is stated"),
  by: Text.min(1).describe("Who states it"),
  on: z.iso.date().describe("Date, ISO 8601"),
  reason: Text.optional().describe("Why, in words"),
});

export type WireId = z.infer<typeof WireId>;
export type ConnectorId = z.infer<typeof ConnectorId>;
export type ComponentId = z.infer<typeof ComponentId>;
export type SpliceId = z.infer<typeof SpliceId>;
export type TerminalStudId = z.infer<typeof TerminalStudId>;
export type SegmentId = z.infer<typeof SegmentId>;
export type TopologyNodeId = z.infer<typeof TopologyNodeId>;
export type ZoneId = z.infer<typeof ZoneId>;
export type OptionId = z.infer<typeof OptionId>;
export type BuildId = z.infer<typeof BuildId>;
export type StateId = z.infer<typeof StateId>;
export type Hazard = z.infer<typeof Hazard>;
export type Access = z.infer<typeof Access>;
export type Origin = z.infer<typeof Origin>;
export type Part = z.infer<typeof Part>;
export type Statement = z.infer<typeof Statement>;
