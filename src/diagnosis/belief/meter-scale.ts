/** What a meter can show of a voltage, resistance or current. */
export type MeterUnit = "V" | "Ω" | "A";

/**
 * The axis that readings are compared on. Volts and amperes: nearly even around zero, by ratio above, sign kept. Ohms: by ratio above
 * half an ohm, because leads and the meter hide what is below.
 */
export const OVER_RANGE = Infinity;
/** Stands for a reading that does not keep still. */
export const UNSTEADY = NaN;
/** Stands for a lead that hangs on nothing: near 0 V on most meters, but no voltage at all. */
export const FLOATING = -Infinity;

/**
 * Puts a reading on the axis of its unit.
 *
 * @param value Volts, ohms or amperes; Infinity for over range, which stays so.
 * @param unit The unit.
 */
export function toScale(value: number, unit: MeterUnit): number {
  if (!Number.isFinite(value)) return value;
  if (unit === "Ω") return Math.log(Math.max(value, 0) + 0.5);
  return Math.asinh(value / 0.05);
}

/** Takes a point of the axis back to volts, ohms or amperes. */
export function fromScale(point: number, unit: MeterUnit): number {
  if (!Number.isFinite(point)) return point;
  if (unit === "Ω") return Math.max(0, Math.exp(point) - 0.5);
  return 0.05 * Math.sinh(point);
}

/** Length of the axis that readings of a 12 V or 24 V machine fall on, for the density of an even spread. */
export const SCALE_LENGTH: Readonly<Record<MeterUnit, number>> = { V: 9, Ω: 17, A: 12 };
