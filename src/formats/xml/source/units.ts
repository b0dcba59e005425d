/** What a value measures, and the unit it is wanted in: mm, mm², A, ohm, V. */
export type Measure = "length" | "area" | "current" | "resistance" | "voltage";

/** A unit as a file describes it, in whichever of these ways it does. */
export interface UnitFacts {
  /** Name of a unit of the SI, such as `metre`. */
  readonly siName: string | undefined;
  readonly siPrefix: string | undefined;
  /** 2 for square, 3 for cubic; 1 if not said. */
  readonly exponent: number;
  /** Name of any other unit, such as `mm` or `ampere`. */
  readonly otherName: string | undefined;
}

const PREFIXES: ReadonlyMap<string, number> = new Map([
  ["", 1],
  ["nano", 1e-9],
  ["micro", 1e-6],
  ["milli", 1e-3],
  ["centi", 1e-2],
  ["deci", 1e-1],
  ["kilo", 1e3],
  ["mega", 1e6],
]);

/** Names of the SI by measure, and how many of the wanted unit one of them is. */
const SI_NAMES: Readonly<Record<Measure, readonly [name: string, exponent: number, wanted: number]>> = {
  length: ["metre", 1, 1e3],
  area: ["metre", 2, 1e6],
  current: ["ampere", 1, 1],
  resistance: ["ohm", 1, 1],
  voltage: ["volt", 1, 1],
};

/**
 * Other names that are written for units, and how many of the wanted unit one of them is.
 *
 * Source: ISO 80000 for symbols; UN/ECE Recommendation 20 for the codes of three letters.
 */
const OTHER_NAMES: Readonly<Record<Measure, ReadonlyMap<string, number>>> = {
  length: new Map([
    ["mm", 1],
    ["mmt", 1],
    ["cmt", 10],
    ["mtr", 1e3],
    ["millimetre", 1],
    ["millimeter", 1],
    ["cm", 10],
    ["m", 1e3],
    ["metre", 1e3],
    ["meter", 1e3],
    ["in", 25.4],
    ["inch", 25.4],
  ]),
  area: new Map([
    ["mm2", 1],
    ["mmk", 1],
    ["mm²", 1],
    ["square millimetre", 1],
    ["squaremillimetre", 1],
    ["cm2", 100],
  ]),
  current: new Map([
    ["a", 1],
    ["amp", 1],
    ["ampere", 1],
    ["ma", 1e-3],
  ]),
  resistance: new Map([
    ["ohm", 1],
    ["Ω", 1],
    ["mohm", 1e-3],
  ]),
  voltage: new Map([
    ["v", 1],
    ["vlt", 1],
    ["volt", 1],
    ["mv", 1e-3],
  ]),
};

/**
 * How many of the wanted unit one of a unit is. Nothing is assumed: a unit that is not known has no factor.
 *
 * @param measure What is measured.
 * @param unit The unit of the file.
 * @returns The factor to mm, mm², A, ohm or V, or undefined where the unit is another one.
 */
export function unitFactor(measure: Measure, unit: UnitFacts): number | undefined {
  if (unit.siName !== undefined) {
    const [name, exponent, wanted] = SI_NAMES[measure];
    const prefix = PREFIXES.get((unit.siPrefix ?? "").toLowerCase());
    if (unit.siName.toLowerCase() !== name || unit.exponent !== exponent || prefix === undefined) return undefined;
    // 1e-3 to the power of two is not 1e-6 exactly; a length of 300 mm has to stay 300.
    return Number((prefix ** exponent * wanted).toPrecision(12));
  }
  return unit.otherName === undefined ? undefined : OTHER_NAMES[measure].get(unit.otherName.toLowerCase());
}
