import { COPPER_OHM_MM2_PER_METRE } from "ohmward/simulation";

/** A gauge number: 36 for 36 AWG, 0 for 1/0, -1 for 2/0, -3 for 4/0. */
export type AwgNumber = number;

/**
 * Diameter of a solid conductor of an AWG size, in millimetres: 0.005 inch at 36 AWG, 39 equal steps to 0.46 inch at 4/0.
 *
 * Source: ASTM B258, as quoted by four agreeing pages.
 *
 * @param gauge The gauge number.
 */
export function awgDiameterMm(gauge: AwgNumber): number {
  return 0.127 * 92 ** ((36 - gauge) / 39);
}

/** Cross-section of a solid conductor of an AWG size, in mm2. */
export function awgCrossSectionMm2(gauge: AwgNumber): number {
  return (Math.PI / 4) * awgDiameterMm(gauge) ** 2;
}

/**
 * Resistance of a solid copper conductor of an AWG size at 20 C, in ohm per kilometre. A stranded one of the same size differs by -14
 * to +2 %: its area is not fixed by the label.
 *
 * Source: resistivity of copper over area; agrees to the printed digit with two published tables.
 */
export function awgSolidOhmPerKm(gauge: AwgNumber): number {
  return (1000 * COPPER_OHM_MM2_PER_METRE) / awgCrossSectionMm2(gauge);
}
