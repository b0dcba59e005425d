import { z } from "zod";
import { facts, header, item } from "../answer-parts.ts";
import type { Frozen } from "../frozen.ts";
import { leadAccess } from "./expect-answer.ts";
import { because, conditions, figures, readingKind } from "./reading-schema.ts";

const reading = z.object({ kind: readingKind, ...figures });

/** One point on a way. */
const row = z.object({
  item: facts,
  /** The point that is read, as a canonical address. */
  point: z.string(),
  /** Wires, fuses, switches and the like between the row before and this one. */
  through: z.array(facts),
  reading,
  /** Volts lost since the row before, positive where voltage is lost on the way down; absent next to what has no figure. */
  dropVolt: z.number().optional(),
  /** Only with faults: what a machine without them reads, and whether a meter can tell the two apart. */
  healthy: reading.optional(),
  isToldApart: z.boolean().optional(),
  /** Whether the red lead may go there in this state, as in the answer for a single reading. */
  access: leadAccess,
  /** How it goes there, or why it may not. */
  text: z.string(),
  /** The gentlest permitted way to the point itself; absent where there is none. */
  reach: z
    .object({ class: z.string(), method: z.string(), minutes: z.number(), adapter: z.string().optional() })
    .optional(),
  /** Where the lead may go instead, nearest first; empty where it may go to the point itself. */
  instead: z.array(z.object({ at: z.string(), class: z.string(), unplug: z.string().optional() })),
});

/** What a voltmeter says at all points of the circuits of a thing, way by way. */
export const TableAnswer = z.object({
  kind: z.literal("table"),
  ...header,
  of: facts,
  /** Where the black lead stays. */
  black: z.string(),
  ...conditions,
  because: z.array(because),
  legs: z.array(
    z.object({
      serves: item,
      role: z.enum(["supply", "ground", "module", "outlet", "nothing"]),
      /** From the supply, or the pin of a control unit, down to the consumer; from the consumer down to ground. */
      rows: z.array(row),
    }),
  ),
  /** Ways that are not listed, because there are too many. */
  legsLeftOut: z.number(),
});

export type TableAnswer = Frozen<z.infer<typeof TableAnswer>>;
/** One point on a way. */
export type TableRow = Frozen<z.infer<typeof row>>;
/** What a voltmeter says at a point of a table. */
export type TableReading = Frozen<z.infer<typeof reading>>;
