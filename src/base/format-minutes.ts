import { formatNumber } from "./format-number.ts";

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
