import { formatNumber } from "./format-number.ts";

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
