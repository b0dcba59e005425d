import { z } from "zod";

/**
 * What a meter says. `floating`: nothing ties one lead to the other, which is no zero; `over-range`: more than the highest range, on
 * ohms an open way; `refused`: the reading would mean nothing or do harm; `contradictory` and `no-steady-state`: the machine in this
 * situation has no figure. A figure is never made up: where there is none, value, low and high are null.
 */
export const readingKind = z.enum(["value", "floating", "over-range", "refused", "contradictory", "no-steady-state"]);

/** The unit of a reading: volts, ohms, amperes, or percent of the time. */
export const readingUnit = z.enum(["V", "Ω", "A", "%"]);

/** The figures of a reading with the band it lies in. */
export const figures = {
  value: z.number().nullable(),
  unit: readingUnit,
  low: z.number().nullable(),
  high: z.number().nullable(),
};

/** Under which conditions something is read, as they were understood. */
export const conditions = {
  /** Each fault as a text that can be asked with again, and in words. */
  faults: z.array(z.object({ text: z.string(), label: z.string() })),
  unplugged: z.array(z.string()),
  adapters: z.array(z.string()),
  /** What was set by hand in place of what the state says. */
  settings: z.array(z.string()),
};

/** A reason with its code. */
export const because = z.object({ code: z.string(), text: z.string() });
