import { readUnit as readWrittenUnit } from "../../base/index.ts";

/** Units that sizes and lengths of a table may have. */
export type Unit = "mm" | "cm" | "m" | "in" | "ft" | "mm2" | "AWG";

/** What a unit measures. */
export type UnitSort = "length" | "crossSection";

const SORTS: Readonly<Record<Unit, UnitSort>> = {
  ...{ mm2: "crossSection", AWG: "crossSection" },
  ...{ mm: "length", cm: "length", m: "length", in: "length", ft: "length" },
};
const UNITS = Object.keys(SORTS) as readonly Unit[];
/** A gauge number is no quantity: it has no factor. */
const GAUGE = /^(?:awg|ga|gauge)$/iu;

/** The units of one sort. */
export function unitsOf(sort: UnitSort): readonly Unit[] {
  return UNITS.filter((unit) => SORTS[unit] === sort);
}

/** The unit a text names, such as `mm²` or `AWG`; undefined if it names none. */
export function readUnit(text: string): Unit | undefined {
  if (GAUGE.test(text.trim().replace(/\.$/u, ""))) return "AWG";
  const symbol = readWrittenUnit(text, ["mm", "mm²"])?.symbol;
  return symbol === "mm²" ? "mm2" : UNITS.find((unit) => unit === symbol);
}

/** What a unit measures. */
export function unitSort(unit: Unit): UnitSort {
  return SORTS[unit];
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
  const factor = unit === "AWG" ? undefined : readWrittenUnit(unit)?.factor;
  if (factor === 1) return value;
  if (factor !== undefined) return Number((value * factor).toPrecision(9));
  const diameterMm = 0.127 * 92 ** ((36 - value) / 39);
  return Number(((Math.PI / 4) * diameterMm ** 2).toPrecision(4));
}
