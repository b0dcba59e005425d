import { z } from "zod";
import { facts, header } from "../answer-parts.ts";
import type { Frozen } from "../frozen.ts";
import { because, conditions, figures, readingKind } from "./reading-schema.ts";

const probeClass = z.enum(["P0", "P1", "P2", "P3", "P4"]);

/** Where one lead goes, and whether it may. */
const lead = z.object({
  lead: z.enum(["red", "black", "clamp"]),
  /** As typed; absent where the lead was left to the answer. */
  asked: z.string().optional(),
  /** The point the figure is for, as a canonical address; the wire of a clamp. */
  at: z.string(),
  of: facts,
  /**
   * `permitted`: at this very point; `elsewhere`: only at another point of the same conductor; `opened`: only with its connector
   * unplugged, which changes the reading; `none`: nowhere in this state; `unknown`: the document has no states to judge by.
   */
  access: z.enum(["permitted", "elsewhere", "opened", "none", "unknown"]),
  text: z.string(),
  ways: z.array(
    z.object({
      id: z.string(),
      class: probeClass,
      method: z.string(),
      how: z.string(),
      /** The point that is reached; absent where nothing is touched. */
      at: z.string().optional(),
      between: z.array(z.string()),
      adapter: z.string().optional(),
      unplug: z.string().optional(),
      minutes: z.number(),
      cautions: z.array(z.string()),
    }),
  ),
  /** Why not, where the lead is not permitted at the point itself. */
  refused: z.array(z.object({ method: z.string(), rule: z.string(), reason: z.string(), source: z.string() })),
});

/** What the meter should say between two points in a state, healthy or faulty. */
export const ExpectAnswer = z.object({
  kind: readingKind,
  ...header,
  ...figures,
  meter: z.enum(["volts", "ohms", "drop", "amps", "lamp", "duty"]),
  red: z.string(),
  /** Absent for a clamp. */
  black: z.string().optional(),
  ...conditions,
  because: z.array(because),
  /** What it means, in a sentence or two. */
  text: z.string(),
  /** What has to be taken off before the reading can be taken. */
  disconnect: z.array(z.string()),
  /** States in which the meter says the same, within the band. */
  holdsIn: z.array(z.string()),
  /** Only with faults: what a machine without them reads, and whether a meter can tell the two apart. */
  healthy: z.object({ kind: readingKind, ...figures, isToldApart: z.boolean() }).optional(),
  leads: z.array(lead),
  /** Both leads may be put there and the meter says something. Otherwise the figure is for understanding only. */
  canBeMeasured: z.boolean(),
});

export type ExpectAnswer = Frozen<z.infer<typeof ExpectAnswer>>;
/** Where one lead goes, and whether it may. */
export type LeadFacts = Frozen<z.infer<typeof lead>>;
