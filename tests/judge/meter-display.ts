// A meter of 6000 counts, as a person reads it off.

const COUNTS = 6000;

/** A number in the smallest range that holds it: its digits, and the factor of the range. */
function inRange(
  value: number,
  ranges: readonly { readonly top: number; readonly unit: string; readonly factor: number }[],
): string {
  const range = ranges.find(({ top }) => Math.abs(value) < top) ?? ranges.at(-1);
  if (range === undefined) throw new Error("A meter without ranges");
  const step = range.top / COUNTS / range.factor;
  return `${(value / range.factor).toFixed(Math.max(0, Math.round(-Math.log10(step))))} ${range.unit}`;
}

const VOLT_RANGES = [
  { top: 0.6, unit: "mV", factor: 0.001 },
  { top: 6, unit: "V", factor: 1 },
  { top: 60, unit: "V", factor: 1 },
] as const;
const OHM_RANGES = [
  { top: 600, unit: "ohm", factor: 1 },
  { top: 6000, unit: "kohm", factor: 1000 },
  { top: 60_000, unit: "kohm", factor: 1000 },
  { top: 600_000, unit: "kohm", factor: 1000 },
  { top: 6e6, unit: "Mohm", factor: 1e6 },
  { top: 6e7, unit: "Mohm", factor: 1e6 },
] as const;

/** What the display shows of a voltage, with its unit. */
export const voltsShown = (volt: number): string => inRange(volt, VOLT_RANGES);

/** What the display shows of a resistance, with its unit. */
export const ohmsShown = (ohm: number): string => inRange(ohm, OHM_RANGES);
