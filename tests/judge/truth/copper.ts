/**
 * Highest resistance of one metre of stranded copper at 20 C in ohm, by cross-section in mm2.
 * Source: IEC 60228, class 5, plain strands; written down from memory, confidence high.
 */
const OHM_PER_METRE: readonly (readonly [number, number])[] = [
  [0.5, 0.039],
  [0.75, 0.026],
  [1, 0.0195],
  [1.5, 0.0133],
  [2.5, 0.00798],
  [4, 0.00495],
  [6, 0.0033],
  [10, 0.00191],
  [16, 0.00121],
  [25, 0.00078],
  [35, 0.000554],
  [50, 0.000386],
  [70, 0.000272],
  [95, 0.000206],
];

/** Resistance of a wire in ohm; a size that is not in the table is an error, because nobody should guess it. */
export function wireOhm(crossSectionMm2: number, lengthMm: number): number {
  const row = OHM_PER_METRE.find(([size]) => size === crossSectionMm2);
  if (row === undefined) throw new Error(`No resistance known for ${crossSectionMm2} mm2`);
  return (row[1] * lengthMm) / 1000;
}
