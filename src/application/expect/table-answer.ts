import { z } from "zod";
import { facts, header, item } from "../answer-parts.ts";
import type { Frozen } from "../frozen.ts";
import { leadAccess } from "./expected-answer.ts";
import { because, conditions, figures, readingKind } from "./reading-schema.ts";

const reading = z
  .object({ kind: readingKind.describe("What the meter shows"), ...figures })
  .describe("What the meter shows there");

/** One point on a way. */
const row = z.object({
  item: facts.describe("The item at the point"),
  point: z.string().describe("The point of the reading, as a canonical address"),
  through: z.array(facts).describe("Wires, fuses, switches and the like between the row before and this one"),
  reading,
  dropVolt: z
    .number()
    .optional()
    .describe(
      "Voltage drop since the row before, in V, positive from supply to ground; absent beside a reading without a value",
    ),
  normal: reading.optional().describe("Only with faults: the normal reading, and whether a meter can separate the two"),
  isToldApart: z.boolean().optional().describe("Whether a meter can separate the two"),
  access: leadAccess.describe(
    "Whether the red (V/Ω) lead is permitted there in this state, as in the answer for a single reading",
  ),
  text: z.string().describe("How it goes there, or why it is not permitted"),
  reach: z
    .object({
      class: z.string().describe("Class of the test point, from P0 (no contact) to P4 (exposed screw)"),
      method: z.string().describe("How the lead goes there, such as `clamp`, `in-line`, `front-probe`"),
      minutes: z.number().describe("Time needed, in minutes"),
      adapter: z.string().optional().describe("Id of the test adapter"),
    })
    .optional()
    .describe("The safest permitted contact at the point itself; absent where there is none"),
  instead: z
    .array(
      z.object({
        at: z.string().describe("Address of the point"),
        class: z.string().describe("Class of the test point, from P0 (no contact) to P4 (exposed screw)"),
        unplug: z.string().optional().describe("Id of the connector to disconnect first"),
      }),
    )
    .describe("Where the lead may go instead, nearest first; empty where the point itself is permitted"),
});

/** What a voltmeter says at all points of the circuits of a thing, way by way. */
export const TableAnswer = z.object({
  kind: z.literal("table").describe("Sort of answer"),
  ...header,
  of: facts.describe("The item asked about"),
  black: z.string().describe("Where the black (COM) lead stays"),
  ...conditions,
  because: z.array(because).describe("Why, reason by reason"),
  legs: z
    .array(
      z.object({
        serves: item.describe("The load that is served"),
        role: z.enum(["supply", "ground", "module", "outlet", "nothing"]).describe("What the path leads to"),
        rows: z
          .array(row)
          .describe(
            "From the supply, or the pin of a control unit, down to the consumer; from the consumer down to ground",
          ),
      }),
    )
    .describe("Paths of the circuits, supply side first"),
  legsLeftOut: z.number().describe("Number of paths that are not listed, because there are too many"),
});

export type TableAnswer = Frozen<z.infer<typeof TableAnswer>>;
/** One point on a way. */
export type TableRow = Frozen<z.infer<typeof row>>;
/** What a voltmeter says at a point of a table. */
export type TableReading = Frozen<z.infer<typeof reading>>;
