import { formatNumber } from "./format-number.ts";
import type { QuantityUnit } from "./quantity-units.ts";

interface Scale {
  readonly prefix: string;
  readonly factor: number;
  /** From this size on the prefix is used, in the unit without prefix. */
  readonly from: number;
  /** Most decimals. */
  readonly decimals: number;
}

const COUNTS = 6000;
// The prefixes a person says, largest first. Never three decimals: "1.234 kΩ" typed back could be taken for thousands.
const ofOhm: readonly Scale[] = [
  { prefix: "M", factor: 1e6, from: 1e6, decimals: 2 },
  { prefix: "k", factor: 1e3, from: 1e3, decimals: 2 },
  { prefix: "", factor: 1, from: 0, decimals: 1 },
];
const scales: ReadonlyMap<QuantityUnit, readonly Scale[]> = new Map<QuantityUnit, readonly Scale[]>([
  [
    "V",
    [
      { prefix: "", factor: 1, from: 0.1, decimals: 2 },
      { prefix: "m", factor: 1e-3, from: 0, decimals: 1 },
    ],
  ],
  [
    "A",
    [
      { prefix: "", factor: 1, from: 0.1, decimals: 2 },
      { prefix: "m", factor: 1e-3, from: 0, decimals: 2 },
    ],
  ],
  ["Ω", ofOhm],
  ["Hz", ofOhm],
  [
    "W",
    [
      { prefix: "k", factor: 1e3, from: 1e3, decimals: 2 },
      { prefix: "", factor: 1, from: 0, decimals: 2 },
    ],
  ],
]);
const plain: readonly Scale[] = [{ prefix: "", factor: 1, from: 0, decimals: 1 }];

/**
 * Writes a value as a meter of 6000 counts shows it, in the unit a person says: volts and amperes from 0.1 on, below that milli; ohms, kilo-ohms,
 * mega-ohms; at most two decimals, and no more digits than such a meter has in that range.
 *
 * Source: a space between number and unit, the prefix joined to the unit: BIPM, The International System of Units (SI
 * Brochure), 9th edition, sections 3 and 5.4.3. Ranges, and which prefix a unit takes: common practice, no source.
 *
 * @param value a finite number in the unit given
 * @param unit the unit of `value`
 * @param significantDigits how many digits to keep in place of those of a meter, 1 to 15: for what is no reading, such as a tolerance
 * @returns for example `12.65 V`, `0.52 V`, `85.3 mV`, `1.2 kΩ`
 * @throws RangeError when the value is not finite: "open" and "floating" are not numbers and need words of their own
 *
 * @example
 * ```ts
 * import { formatQuantity } from "ohmward/base";
 *
 * expect(formatQuantity(12.648, "V")).toBe("12.65 V");
 * expect(formatQuantity(0.5212, "V")).toBe("0.52 V");
 * expect(formatQuantity(0.0853, "V")).toBe("85.3 mV");
 * expect(formatQuantity(1200, "Ω")).toBe("1.2 kΩ");
 * ```
 */
export function formatQuantity(value: number, unit: QuantityUnit, significantDigits?: number): string {
  if (!Number.isFinite(value)) throw new RangeError(`Cannot write quantity: ${value} ${unit} is not finite`);
  const choices = scales.get(unit) ?? plain;
  const written = choices.map((scale) => ({ scale, number: rounded(value / scale.factor, scale, significantDigits) }));
  // What rounds up to the next prefix is written with it, so the size that counts is that of the finer one.
  const fit = written.find(({ scale }, at) => {
    const finer = written[at + 1];
    return finer === undefined || Math.abs(finer.number) * finer.scale.factor >= scale.from * (1 - 1e-12);
  });
  if (!fit) throw new RangeError(`Cannot write quantity: no prefix for ${value} ${unit}`);
  if (fit.number === 0) return `0 ${unit}`;
  return `${formatNumber(fit.number, 15 - wholeDigits(fit.number))} ${fit.scale.prefix}${unit}`;
}

function rounded(number: number, { decimals }: Scale, significantDigits: number | undefined): number {
  if (significantDigits !== undefined) return Number(number.toPrecision(significantDigits));
  // The finest count by which 6000 of them reach the value.
  const most = Math.floor(Math.log10(COUNTS / Math.max(1, Math.abs(number))));
  return Number(number.toFixed(Math.max(0, Math.min(decimals, most))));
}

function wholeDigits(value: number): number {
  return Math.min(15, Math.max(1, Math.floor(Math.log10(Math.abs(value) || 1)) + 1));
}
