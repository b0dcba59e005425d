import { z } from "zod";

/**
 * What a meter says. `floating`: nothing ties one lead to the other, which is no zero; `overload`: more than the highest range, on
 * ohms an open way; `refused`: the reading would mean nothing or do harm; `contradictory` and `no-steady-state`: the machine in this
 * situation has no figure. A figure is never made up: where there is none, value, low and high are null.
 */
export const readingKind = z.enum(["value", "floating", "overload", "refused", "contradictory", "no-steady-state"]);

/** The unit of a reading: volts, ohms, amperes, or percent of the time. */
export const readingUnit = z.enum(["V", "Ω", "A", "%"]).describe("Unit of the values: V, Ω, A or % of the time");

/** The figures of a reading with the band it lies in. */
export const figures = {
  value: z.number().nullable().describe("Value, in the unit beside it; null where there is none"),
  unit: readingUnit,
  low: z.number().nullable().describe("Lower limit, in the unit beside it; null where there is none"),
  high: z.number().nullable().describe("Upper limit, in the unit beside it; null where there is none"),
};

/** Under which conditions something is read, as they were understood. */
export const conditions = {
  faults: z
    .array(
      z.object({
        text: z.string().describe("The fault in text form, such as `open:W89`"),
        label: z.string().describe("The fault in words"),
      }),
    )
    .describe("Each fault as a text that can be asked with again, and in words"),
  unplugged: z.array(z.string()).describe("Ids of the connectors that are disconnected"),
  adapters: z.array(z.string()).describe("Ids of the test adapters"),
  settings: z.array(z.string()).describe("What was set by hand in place of what the state says"),
};

/** A reason with its code. */
export const because = z.object({
  code: z.string().describe("Short name of the reason"),
  text: z.string().describe("The reason in words"),
});
