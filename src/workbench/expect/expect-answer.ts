import { z } from "zod";
import { facts, header } from "../answer-parts.ts";
import type { Frozen } from "../frozen.ts";
import { because, conditions, figures, readingKind } from "./reading-schema.ts";

const leadName = z.enum(["red", "black", "clamp"]);
const probeClass = z.enum(["P0", "P1", "P2", "P3", "P4"]);

/**
 * Whether a lead may go to a point. `permitted`: to this very point; `elsewhere`: only to another point of the same conductor; `opened`:
 * only with its connector unplugged, which changes the reading; `none`: nowhere on the conductor in this state; `unknown`: the document
 * has no states to judge by. A lead that is not permitted is not placed.
 */
export const leadAccess = z.enum(["permitted", "elsewhere", "opened", "none", "unknown"]);

/** Where one lead goes, and whether it may. */
const lead = z.object({
  lead: leadName,
  /** As typed; absent where the lead was left to the answer. */
  asked: z.string().optional(),
  /** The point the figure is for, as a canonical address; the wire of a clamp. */
  at: z.string(),
  of: facts,
  access: leadAccess,
  text: z.string(),
  /** How it goes there; where it may not, the nearest points where it may. */
  ways: z.array(
    z.object({
      id: z.string(),
      /**
       * What a reading there is: `itself`, the one asked for; `conductor`, the same but for what the conductor loses in between;
       * `opened`, another one, since a connector is unplugged for it; `beyond`, another one, since parts lie in between.
       */
      relation: z.enum(["itself", "conductor", "opened", "beyond"]),
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
  /** Leads that may not be put where they are asked for. There is no figure then, unless it was asked for understanding only. */
  notPlaced: z.array(leadName),
  /** The leads may be put there and the meter says something. Where there is a figure nonetheless, it is for understanding only. */
  canBeMeasured: z.boolean(),
});

export type ExpectAnswer = Frozen<z.infer<typeof ExpectAnswer>>;
/** Where one lead goes, and whether it may. */
export type LeadFacts = Frozen<z.infer<typeof lead>>;
