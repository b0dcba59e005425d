import type { Sourced } from "./sourced.ts";

/** Resistance of a joint, with its source. */
export interface JointOhm extends Sourced {
  readonly ohm: number;
}

const PRACTICE = "typical new joint, common practice, no source";

/** Terminal width in mm with the resistance of one mated contact in ohm. */
const BY_TERMINAL: readonly (readonly [number, number])[] = [
  [0.64, 0.01],
  [1.5, 0.005],
  [2.8, 0.002],
  [6.3, 0.001],
];

/**
 * Typical resistance of a mated contact by the width of its terminal. Widths between are taken as the next smaller one listed.
 * The published limits (USCAR-2, LV 214) were not at hand, so these are orders of magnitude and always shown as typical.
 *
 * @param terminalMm Width of the terminal in mm, or undefined where the document does not say; then as 1.5 mm.
 */
export function typicalContact(terminalMm: number | undefined): JointOhm {
  const width = terminalMm ?? 1.5;
  let ohm = BY_TERMINAL[0]?.[1] ?? 0.01;
  for (const [least, value] of BY_TERMINAL) if (width >= least) ohm = value;
  const size = terminalMm === undefined ? "terminal of unknown width, taken as 1.5 mm" : `${terminalMm} mm terminal`;
  return { ohm, source: `${PRACTICE}: ${size}`, confidence: "low" };
}

/** One leg of a crimped splice. */
export const SPLICE_LEG: JointOhm = { ohm: 0.0005, source: `${PRACTICE}: leg of a crimped splice`, confidence: "low" };

/**
 * A ring on a stud.
 *
 * @param crossSectionMm2 Size of the wire on the ring; from 10 mm2 on it counts as a cable.
 */
export function typicalRing(crossSectionMm2: number | undefined): JointOhm {
  const isCable = (crossSectionMm2 ?? 0) >= 10;
  const source = `${PRACTICE}: ring of a ${isCable ? "cable" : "wire"} on a clean stud`;
  return { ohm: isCable ? 0.0001 : 0.0003, source, confidence: "low" };
}
