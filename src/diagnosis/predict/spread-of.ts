import { fromScale, type MeterUnit } from "../belief/meter-scale.ts";

/**
 * Spread of a reading that nothing is wrong with, as one standard deviation on the axis of its unit: tolerances of the parts, state of the
 * battery, meter.
 *
 * Volts: 2.5 % of the voltage, which covers battery, regulators and sensors; a fifth of what is below 0.2 V, because small voltages are
 * drops along wires and joints; half of a meter's 0.5 % and 20 mV. Ohms: 5 % and 0.15 ohm of leads.
 *
 * @param point A reading on the axis; special marks have no spread and get that of 0.
 * @param unit The unit.
 *
 * Source: meter limits taken as two standard deviations after instrument manuals; the rest common practice, no source. Compared with bands
 * worked out part by part in the tests.
 */
export function spreadOf(point: number, unit: MeterUnit): number {
  const value = Number.isFinite(point) ? Math.abs(fromScale(point, unit)) : 0;
  switch (unit) {
    case "V": {
      const parts = 0.025 * value + 0.2 * Math.min(value, 0.2);
      const meter = 0.5 * (0.005 * value + 0.02);
      return (parts + meter) / Math.hypot(value, 0.05);
    }
    case "Ω":
      return (0.05 * value + 0.15) / (value + 0.5);
    case "A":
      return (0.1 * value + 0.02) / Math.hypot(value, 0.05);
  }
}
