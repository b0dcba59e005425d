import type { PartGroup } from "../network/part.ts";

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
