import { formatNumber } from "./format-number.ts";

/** A unit that {@link formatQuantity} can write, in its plain form without prefix. */
export type QuantityUnit = "V" | "A" | "Ω" | "W" | "Hz" | "%" | "°C" | "bar" | "kPa" | "mm" | "mm²" | "min";

interface Prefix {
  readonly letter: string;
  readonly factor: number;
}

const plain: Prefix = { letter: "", factor: 1 };
const kilo: Prefix = { letter: "k", factor: 1e3 };
const mega: Prefix = { letter: "M", factor: 1e6 };
const milli: Prefix = { letter: "m", factor: 1e-3 };

// Only the prefixes that a hand-held meter shows for the unit, largest first.
const prefixes: ReadonlyMap<QuantityUnit, readonly Prefix[]> = new Map<QuantityUnit, readonly Prefix[]>([
  ["V", [plain, milli]],
  ["A", [plain, milli]],
  ["Ω", [mega, kilo, plain]],
  ["W", [kilo, plain]],
  ["Hz", [mega, kilo, plain]],
]);

/**
 * Writes a number with its unit as a technician reads it off a meter: three significant digits, and the prefix a meter would use.
 *
 * Source: a space between number and unit, the prefix joined to the unit: BIPM, The International System of Units (SI
 * Brochure), 9th edition, sections 3 and 5.4.3. Which prefix a unit takes: common practice, no source.
 *
 * @param value a finite number in the unit given
 * @param unit the unit of `value`
 * @param significantDigits how many digits to keep, 1 to 15; 3 when left out
 * @returns for example `12.4 V`, `85 mV`, `1.2 kΩ`
 * @throws RangeError when the value is not finite: "open" and "floating" are not numbers and need words of their own
 *
 * @example
 * ```ts
 * import { formatQuantity } from "ohmward/base";
 *
 * expect(formatQuantity(12.44, "V")).toBe("12.4 V");
 * expect(formatQuantity(0.085, "V")).toBe("85 mV");
 * expect(formatQuantity(1200, "Ω")).toBe("1.2 kΩ");
 * ```
 */
export function formatQuantity(value: number, unit: QuantityUnit, significantDigits = 3): string {
  if (!Number.isFinite(value)) throw new RangeError(`Cannot write quantity: ${value} ${unit} is not finite`);
  const rounded = Number(value.toPrecision(significantDigits));
  const choices = prefixes.get(unit) ?? [plain];
  const prefix = choosePrefix(choices, Math.abs(rounded));
  // Rounded again after the division, which can leave a tail such as 85.00000000000001.
  const shown = Number((rounded / prefix.factor).toPrecision(significantDigits));
  return `${formatNumber(shown, 15 - wholeDigits(shown))} ${prefix.letter}${unit}`;
}

function choosePrefix(choices: readonly Prefix[], size: number): Prefix {
  if (size === 0) return plain;
  return choices.find((choice) => size >= choice.factor) ?? choices.at(-1) ?? plain;
}

function wholeDigits(value: number): number {
  return Math.min(15, Math.max(1, Math.floor(Math.log10(Math.abs(value) || 1)) + 1));
}
