import type { PartGroup } from "../network/part.ts";
import type { Sourced } from "./wire-resistance.ts";

/** Resistance of a joint, with its source. */
export interface ContactResistanceOhm extends Sourced {
  readonly ohm: number;
}

const PRACTICE = "typical new contact, common practice, no source";

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
export function typicalContact(terminalMm: number | undefined): ContactResistanceOhm {
  const width = terminalMm ?? 1.5;
  let ohm = BY_TERMINAL[0]?.[1] ?? 0.01;
  for (const [least, value] of BY_TERMINAL) if (width >= least) ohm = value;
  const size = terminalMm === undefined ? "terminal of unknown width, assumed 1.5 mm" : `${terminalMm} mm terminal`;
  return { ohm, source: `${PRACTICE}: ${size}`, confidence: "low" };
}

/** One leg of a crimped splice. */
export const SPLICE_LEG: ContactResistanceOhm = {
  ohm: 0.0005,
  source: `${PRACTICE}: leg of a crimped splice`,
  confidence: "low",
};

/**
 * A ring on a stud.
 *
 * @param crossSectionMm2 Size of the wire on the ring; from 10 mm2 on it counts as a cable.
 */
export function typicalRing(crossSectionMm2: number | undefined): ContactResistanceOhm {
  const isCable = (crossSectionMm2 ?? 0) >= 10;
  const source = `${PRACTICE}: ring terminal of a ${isCable ? "cable" : "wire"} on a clean terminal stud`;
  return { ohm: isCable ? 0.0001 : 0.0003, source, confidence: "low" };
}

/**
 * Cold resistance of a filament as a share of the hot one, and how far it may be off, as a share.
 *
 * Source: resistivity of tungsten, Jones and Langmuir 1927, from memory: at 2,700 K about 14 times that at 300 K; a small lamp read cold at
 * its contacts has up to a tenth.
 */
export const FILAMENT = { coldShare: 0.08, coldTolerance: 0.3 } as const;

/**
 * How far the resistance of a healthy part may be off, as a share, where the document gives no tolerance of its own. Taken as the
 * limit of two standard deviations.
 *
 * Source: common practice, no source; they decide how wide a band is, not the value in its middle.
 */
export const RESISTANCE_SHARE: Readonly<Record<PartGroup, number>> = {
  wire: 0.12,
  joint: 0.5,
  bar: 0.2,
  switch: 0.5,
  fuse: 0.2,
  resistor: 0.05,
  sensor: 0.05,
  coil: 0.1,
  load: 0.1,
  driver: 0.3,
  bias: 0.05,
  supply: 0.3,
  regulator: 0.3,
  diode: 0.3,
  fault: 0,
  tester: 0,
  outside: 0,
};

/** How far a battery or alternator may be off, in volt for each 12 V of the system. Common practice, no source. */
export const SUPPLY_VOLT_PER_12 = 0.25;

/** How far a regulator may be off, as a share of its voltage: 5 V give or take 0.25 V. Common practice, no source. */
export const REGULATOR_SHARE = 0.05;

/**
 * How far the real voltage across a conducting junction may be from the piecewise one, in volt: the largest difference found in 60
 * generated networks against exponential diodes.
 */
export const JUNCTION_VOLT = 0.3;

/**
 * Voltages at which a relay coil pulls in and lets go, as shares of the nominal voltage, where the document gives none.
 *
 * Source: data sheets of 12 V relays: pick-up at most 7.0 to 8.0 V, drop-out at least 0.5 to 1.2 V. Typical.
 */
export const TYPICAL_PULL_IN_SHARE = 0.65;
/** See {@link TYPICAL_PULL_IN_SHARE}. */
export const TYPICAL_DROP_OUT_SHARE = 0.1;

/** A silicon diode where nothing is given: forward voltage and resistance behind it. Typical, common practice, no source. */
export const TYPICAL_DIODE = { forwardVolt: 0.7, resistanceOhm: 0.05 } as const;

/** Supply a ratiometric sensor is meant for, in volt; its own consumption is counted at it. Common practice, no source. */
export const SENSOR_SUPPLY_VOLT = 5;

/**
 * What an ohmmeter meets between the rails of electronics that sleep, in ohm: some ten thousand, and no resistor. Common practice, no source.
 */
export const ASLEEP_OHM = 22e3;

/** The least that is taken for what hides in electronics that sleep, in ohm. Common practice, no source. */
export const LEAST_ASLEEP_OHM = 10e3;

/** Volts with which electronics come to life, where the document does not say. Common practice, no source. */
export const LIFE_VOLT = 2;
