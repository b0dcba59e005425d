/**
 * Resistivity of annealed copper at 20 C, ohm mm2 per metre (100 % IACS).
 *
 * Source: 0.15328 ohm g/m2 at 8.89 g/cm3, NBS Circular 31 (1914) and NBS Handbook 100 (1966), as quoted.
 */
export const COPPER_OHM_MM2_PER_METRE = 0.15328 / 8.89;

/**
 * Change of the resistance of copper per kelvin, counted from 20 C.
 *
 * Source: 0.00393 /K for 100 % IACS, NBS Handbook 100 (from memory; the factors it gives agree with published ones).
 */
export const COPPER_PER_KELVIN = 0.00393;

/**
 * How many times the resistance at 20 C copper has at another temperature.
 *
 * @param temperatureC Temperature in degrees C, -80 to 200.
 * @returns 1 at 20 C, 1.255 at 85 C.
 * @example
 * ```ts
 * import { copperFactor } from "ohmward/electrics";
 * expect(copperFactor(20)).toBe(1);
 * expect(copperFactor(85)).toBeCloseTo(1.255, 3);
 * ```
 */
export function copperFactor(temperatureC: number): number {
  return 1 + COPPER_PER_KELVIN * (temperatureC - 20);
}
