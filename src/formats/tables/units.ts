/** Units that sizes and lengths of a table may have. */
export type Unit = "mm" | "cm" | "m" | "in" | "ft" | "mm2" | "AWG";

/** What a unit measures. */
export type UnitSort = "length" | "crossSection";

interface UnitText {
  readonly unit: Unit;
  readonly sort: UnitSort;
  /** How the unit is written, in small letters. */
  readonly texts: readonly string[];
  /** Millimetres, or square millimetres, to the unit; absent for gauge numbers. */
  readonly factor?: number;
}

/** Source: the inch is 25.4 mm and the foot 304.8 mm by international agreement of 1959. */
const UNITS: readonly UnitText[] = [
  { unit: "mm2", sort: "crossSection", texts: ["mm2", "mm²", "mm^2", "sqmm", "sq mm", "sq.mm", "qmm"], factor: 1 },
  { unit: "AWG", sort: "crossSection", texts: ["awg", "ga", "gauge"] },
  { unit: "mm", sort: "length", texts: ["mm", "millimetre", "millimeter"], factor: 1 },
  { unit: "cm", sort: "length", texts: ["cm"], factor: 10 },
  { unit: "m", sort: "length", texts: ["m", "metre", "meter", "metres", "meters"], factor: 1000 },
  { unit: "in", sort: "length", texts: ["in", "inch", "inches", '"', "zoll"], factor: 25.4 },
  { unit: "ft", sort: "length", texts: ["ft", "feet", "foot"], factor: 304.8 },
];

/** The units of one sort. */
export function unitsOf(sort: UnitSort): readonly Unit[] {
  return UNITS.filter((each) => each.sort === sort).map((each) => each.unit);
}

/** The unit a text names, such as `mm²` or `AWG`; undefined if it names none. */
export function readUnit(text: string): Unit | undefined {
  const wanted = text.trim().toLowerCase().replace(/\.$/u, "");
  return UNITS.find((each) => each.texts.includes(wanted))?.unit;
}

/** What a unit measures. */
export function unitSort(unit: Unit): UnitSort {
  return UNITS.find((each) => each.unit === unit)?.sort ?? "length";
}

/**
 * Turns a value into millimetres or square millimetres; a gauge number goes through its diameter.
 *
 * @param value The number as written; for gauge numbers above 0 size 00 is -1, 000 is -2 and so on.
 * @param unit Its unit.
 * @returns Millimetres for a length, square millimetres for a size.
 * @example
 * ```ts
 * import { toMillimetres } from "ohmward/formats";
 * expect(toMillimetres(2, "in")).toBe(50.8);
 * expect(toMillimetres(18, "AWG")).toBe(0.823);
 * ```
 * Source: ASTM B258: the diameter of gauge n is 0.127 mm times 92 to the power of (36 - n) / 39. Areas are given to four digits.
 */
export function toMillimetres(value: number, unit: Unit): number {
  const factor = UNITS.find((each) => each.unit === unit)?.factor;
  if (factor === 1) return value;
  if (factor !== undefined) return Number((value * factor).toPrecision(9));
  const diameterMm = 0.127 * 92 ** ((36 - value) / 39);
  return Number(((Math.PI / 4) * diameterMm ** 2).toPrecision(4));
}
