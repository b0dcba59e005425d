import type { QuantityUnit } from "./scan-quantity.ts";

/**
 * Writes a number with at most so many decimals, a point as decimal sign, no grouping and no zeros at the end.
 * The same on every machine and in every language setting.
 *
 * @param value a finite number
 * @param decimals the most decimals to show, 0 to 20
 * @returns for example `0.5`, `-3`, `1060`
 * @throws RangeError when the value is not finite
 */
export function formatNumber(value: number, decimals: number): string {
  if (!Number.isFinite(value)) throw new RangeError(`Cannot write number: ${value} is not finite`);
  const fixed = value.toFixed(decimals);
  const trimmed = fixed.includes(".") ? fixed.replace(/\.?0+$/u, "") : fixed;
  return trimmed === "-0" ? "0" : trimmed;
}

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
const tenths: Scale = { prefix: "", factor: 1, from: 0.1, decimals: 2 };
const scales: { readonly [Unit in QuantityUnit]?: readonly Scale[] } = {
  V: [tenths, { prefix: "m", factor: 1e-3, from: 0, decimals: 1 }],
  A: [tenths, { prefix: "m", factor: 1e-3, from: 0, decimals: 2 }],
  Ω: ofOhm,
  Hz: ofOhm,
  W: [
    { prefix: "k", factor: 1e3, from: 1e3, decimals: 2 },
    { prefix: "", factor: 1, from: 0, decimals: 2 },
  ],
};
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
  const choices = scales[unit] ?? plain;
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

/**
 * Writes a length: millimetres below one metre, else metres to the centimetre.
 *
 * @param lengthMm a finite length in millimetres
 * @returns for example `60 mm`, `1.06 m`
 * @throws RangeError when the length is not finite
 *
 * @example
 * ```ts
 * import { formatLengthMm } from "ohmward/base";
 *
 * expect(formatLengthMm(60)).toBe("60 mm");
 * expect(formatLengthMm(1060)).toBe("1.06 m");
 * ```
 */
export function formatLengthMm(lengthMm: number): string {
  const wholeMm = Math.round(lengthMm);
  if (Math.abs(wholeMm) < 1000) return `${formatNumber(wholeMm, 0)} mm`;
  return `${formatNumber(lengthMm / 1000, 2)} m`;
}

/**
 * Writes the cross-section of a conductor, to the thousandth: sizes are names as much as numbers, so nothing is rounded away.
 *
 * @param crossSectionMm2 a finite area in square millimetres
 * @returns for example `0.5 mm²`, `25 mm²`
 * @throws RangeError when the area is not finite
 */
export function formatCrossSectionMm2(crossSectionMm2: number): string {
  return `${formatNumber(crossSectionMm2, 3)} mm²`;
}

/**
 * Writes a length of time for planning work: half minutes below ten minutes, whole minutes below an hour, then hours and minutes.
 *
 * @param minutes a finite time in minutes, not negative
 * @returns for example `0.5 min`, `4 min`, `1 h 30 min`
 * @throws RangeError when the time is negative or not finite
 *
 * @example
 * ```ts
 * import { formatMinutes } from "ohmward/base";
 *
 * expect(formatMinutes(4)).toBe("4 min");
 * expect(formatMinutes(90)).toBe("1 h 30 min");
 * ```
 */
export function formatMinutes(minutes: number): string {
  if (!Number.isFinite(minutes) || minutes < 0) {
    throw new RangeError(`Cannot write time: ${minutes} minutes must be finite and not negative`);
  }
  const shown = minutes < 9.75 ? Math.round(minutes * 2) / 2 : Math.round(minutes);
  if (shown < 60) return `${formatNumber(shown, 1)} min`;
  const hours = Math.floor(shown / 60);
  const rest = shown - hours * 60;
  return rest === 0 ? `${hours} h` : `${hours} h ${rest} min`;
}
