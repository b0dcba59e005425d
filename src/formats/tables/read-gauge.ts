/** `#18`, `18 AWG`, `AWG 18`, `2/0`: gauge numbers, where `2/0` is size 00. */
const GAUGE = /^(?:awg|ga\.?|#)?\s*(\d{1,2})(\/0)?\s*(?:awg|ga\.?|gauge)?$/iu;
const ZEROS = /^(?:awg|#)?\s*(0{1,4})\s*(?:awg)?$/iu;

/**
 * Reads a gauge number, such as `18`, `AWG 18` or `2/0`. Sizes above 0 are -1 for 00 or 2/0, -2 for 000, -3 for 0000.
 *
 * @param text The cell.
 * @returns The number, or undefined if the cell holds no gauge.
 */
export function readGauge(text: string): number | undefined {
  const zeros = ZEROS.exec(text.trim())?.[1];
  if (zeros !== undefined) return 1 - zeros.length;
  const match = GAUGE.exec(text.trim());
  const number = Number(match?.[1]);
  if (!match || (match[2] === undefined ? number > 50 : number < 1 || number > 4)) return undefined;
  return match[2] === undefined ? number : 1 - number;
}
