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
