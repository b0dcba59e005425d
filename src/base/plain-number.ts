/**
 * Writes a number with a point so that it can be taken for nothing else: three decimals get a fourth, as `1.234` could be thousands.
 *
 * @param value a finite number
 * @returns for example `12.4`, `1.2340`, `0`
 *
 * @example
 * ```ts
 * import { plainNumber } from "ohmward/base";
 *
 * expect(plainNumber(1.234)).toBe("1.2340");
 * expect(plainNumber(-0)).toBe("0");
 * ```
 */
export function plainNumber(value: number): string {
  const text = String(value + 0);
  return /^-?[1-9]\d{0,2}\.\d{3}$/u.test(text) ? `${text}0` : text;
}
