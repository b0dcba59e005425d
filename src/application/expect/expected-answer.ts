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
  lead: leadName.describe("Which lead: red (V/Ω), black (COM) or current clamp"),
  asked: z.string().optional().describe("As typed; absent where the answer chose the point"),
  at: z.string().describe("The point the value is for, as a canonical address; the wire of a clamp"),
  of: facts.describe("The item the lead goes to"),
  access: leadAccess.describe("Whether the lead may go there"),
  text: z.string().describe("How it goes there or why it is not permitted, in words"),
  ways: z
    .array(
      z.object({
        id: z.string().describe("Id of the test point"),
        relation: z
          .enum(["itself", "conductor", "opened", "beyond"])
          .describe(
            "What a reading there is: `itself`, the reading asked for; `conductor`, the same except for the voltage drop of the conductor between; `opened`, another reading, because a connector is disconnected for it; `beyond`, another reading, because parts are between",
          ),
        class: probeClass.describe("Class of the test point, from P0 (no contact) to P4 (exposed screw)"),
        method: z.string().describe("How the lead goes there, such as `clamp`, `in-line`, `front-probe`"),
        how: z.string().describe("What to do, as a sentence"),
        at: z.string().optional().describe("The point that is reached; absent where nothing is touched"),
        between: z.array(z.string()).describe("Ids of the items between, in order"),
        adapter: z.string().optional().describe("Id of the test adapter"),
        unplug: z.string().optional().describe("Id of the connector to disconnect first"),
        minutes: z.number().describe("Time needed, in minutes"),
        cautions: z.array(z.string()).describe("Warnings to read before touching the machine"),
      }),
    )
    .describe("How it goes there; where it is not permitted, the nearest permitted points"),
  refused: z
    .array(
      z.object({
        method: z.string().describe("How the lead goes there, such as `clamp`, `in-line`, `front-probe`"),
        rule: z.string().describe("Id of the safety rule"),
        reason: z.string().describe("Reason in words"),
        source: z.string().describe("Where the reason comes from"),
      }),
    )
    .describe("Why not, where the lead is not permitted at the point itself"),
});

/** Expected reading between two points in a state, healthy or faulty. */
export const ExpectedReadingAnswer = z.object({
  kind: readingKind.describe("What the meter shows"),
  ...header,
  ...figures,
  meter: z
    .enum(["dc-voltage", "resistance", "voltage-drop", "dc-current", "test-lamp", "duty-cycle"])
    .describe("Function of the meter"),
  red: z.string().describe("Address the red (V/Ω) lead goes to; the wire of a clamp"),
  black: z.string().optional().describe("Absent for a clamp"),
  ...conditions,
  because: z.array(because).describe("Why, reason by reason"),
  text: z.string().describe("What it means, in a sentence or two"),
  disconnect: z.array(z.string()).describe("What to disconnect before the reading"),
  holdsIn: z.array(z.string()).describe("States in which the meter shows the same, within the limits"),
  normal: z
    .object({
      kind: readingKind.describe("What the meter shows without the fault"),
      ...figures,
      isToldApart: z.boolean().describe("Whether a meter can separate the two"),
    })
    .optional()
    .describe("Only with faults: the normal reading, and whether a meter can separate the two"),
  leads: z.array(lead).describe("Where each lead goes, and whether it is permitted"),
  notPlaced: z
    .array(leadName)
    .describe(
      "Leads that are not permitted at the points asked for. There is no value then, except for understanding only",
    ),
  canBeMeasured: z
    .boolean()
    .describe(
      "The leads are permitted there and the meter shows a reading. Where this is false, a value is for understanding only",
    ),
});

export type ExpectedReadingAnswer = Frozen<z.infer<typeof ExpectedReadingAnswer>>;
/** Where one lead goes, and whether it may. */
export type LeadFacts = Frozen<z.infer<typeof lead>>;
