import { z } from "zod";

/**
 * What a number of a harness document or of a question may be: from `least` to `most`, and 0 too where `orZero` says so. Physical bounds,
 * wide on purpose: they keep out slips of the unit and what no part of a machine can be, never a part that exists. Common practice, no
 * source.
 */
export interface Bounds {
  readonly what: string;
  readonly least: number;
  readonly most: number;
  readonly unit: string;
  readonly orZero?: true;
}

/** Bounds by what is told. */
export const BOUNDS = {
  /** From a thick copper bar to the best insulation; 0 for an ideal bar or contact. */
  ohm: { what: "A resistance", least: 1e-7, most: 1e12, unit: "ohm", orZero: true },
  /** A resistance that a part has for certain: one of 0 ohm has no curve. */
  curveOhm: { what: "A resistance of a curve", least: 1e-4, most: 1e12, unit: "ohm" },
  /** Twice the highest voltage of a traction battery, of either sign. */
  volt: { what: "A voltage", least: -2000, most: 2000, unit: "V" },
  /** The same where a sign means nothing. */
  voltSize: { what: "A voltage", least: 0, most: 2000, unit: "V" },
  /** From a bulb for a single cell to one for the mains. */
  lampVolt: { what: "The voltage of a lamp", least: 0.1, most: 2000, unit: "V" },
  /** From a single cell to a traction battery. */
  systemVolt: { what: "A system voltage", least: 1, most: 1000, unit: "V" },
  /** From the supply of a sensor that sleeps to a starter of a large engine; 0 for a sensor that draws nothing. */
  ampere: { what: "A current", least: 1e-9, most: 10_000, unit: "A", orZero: true },
  /** From the smallest fuse and fold-back to the largest bolted fuse. */
  ratedAmpere: { what: "A rated current", least: 1e-3, most: 10_000, unit: "A" },
  /** From an indicator lamp to a work light of many lamps. */
  watt: { what: "A power", least: 1e-3, most: 100_000, unit: "W" },
  /** What insulation of wires and windings stands. */
  temperatureC: { what: "A temperature", least: -80, most: 200, unit: "degrees C" },
  /** From liquid nitrogen to exhaust gas at its hottest. */
  sensorC: { what: "A temperature of a sensor", least: -200, most: 1500, unit: "degrees C" },
  /** A thermistor changes by a share of about this over the square of its temperature; those made have 2000 to 6000. */
  betaK: { what: "A beta", least: 100, most: 20_000, unit: "K" },
  /** Anything of the outside world in any unit: revolutions, pascals, counts. */
  quantity: { what: "A quantity", least: -1e9, most: 1e9, unit: "of its own unit" },
  /** Tap over supply of a divider. */
  ratio: { what: "A ratio", least: 0, most: 1, unit: "(tap over supply)" },
  percent: { what: "A ratio", least: 0, most: 100, unit: "%" },
  /** A share of the time: less than a thousandth of a percent is no pulse that a driver makes. */
  dutyPercent: { what: "A duty cycle", least: 1e-3, most: 100, unit: "%", orZero: true },
  /** A week of work. */
  accessMinutes: { what: "A time", least: 0, most: 10_000, unit: "minutes" },
  adapterMinutes: { what: "A time", least: 0, most: 1000, unit: "minutes" },
  /** Grid steps on the face of a connector. */
  grid: { what: "A position on a face", least: -1000, most: 1000, unit: "grid steps" },
  drawing: { what: "A position on the drawing", least: -1e6, most: 1e6, unit: "drawing units" },
  /** From the finest pin to a bus bar. */
  terminalMm: { what: "A terminal size", least: 0.05, most: 100, unit: "mm" },
  /** From a bond wire to a battery cable of the largest machine. */
  crossSectionMm2: { what: "A conductor size", least: 0.01, most: 400, unit: "mm²" },
  /** From a link on a board to the longest boom. */
  lengthMm: { what: "A length", least: 1e-3, most: 500_000, unit: "mm" },
  /** What a person may read off a meter, in V, ohm or A and of either sign. */
  reading: { what: "A reading", least: -1e12, most: 1e12, unit: "V, ohm or A" },
  /** How many times as much a part that drifts has. */
  driftFactor: { what: "The factor of a drift", least: 0, most: 1e6, unit: "times" },
  driftOffset: { what: "What a drift adds", least: -1e12, most: 1e12, unit: "ohm, V or ratio of the supply" },
} as const satisfies Record<string, Bounds>;

/** Most items of a list of a document: what a machine has many of, some of, few of. No machine known comes near. */
export const MOST_ITEMS = { many: 1_000_000, some: 200_000, few: 1000 } as const;

/** The bounds as a sentence: `A resistance is 0, or 1e-7 to 1000000000000 ohm`. */
export function boundsText({ what, least, most, unit, orZero }: Bounds): string {
  return `${what} is ${orZero ? "0, or " : ""}${least} to ${most} ${unit}`;
}

/** Whether a number is within bounds; what is no number is not. */
export function isWithin({ least, most, orZero }: Bounds, value: number): boolean {
  return (value >= least && value <= most) || (orZero === true && value === 0);
}

/** The schema of a number within bounds; its refusal says what is wanted, in which unit. */
export function within(bounds: Bounds): z.ZodType<number, number> {
  const text = boundsText(bounds);
  const range = z.number(text).min(bounds.least, text).max(bounds.most, text);
  return (bounds.orZero ? z.union([z.literal(0), range], text) : range).describe(text);
}
