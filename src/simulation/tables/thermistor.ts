import { BOUNDS } from "../../harness-model/index.ts";

/** How a thermistor follows its temperature: the beta equation, or a table of degrees C and ohm. */
type ThermistorCurve =
  | { readonly referenceOhm: number; readonly referenceC: number; readonly betaK: number }
  | { readonly tableCOhm: readonly (readonly [number, number])[] };

const ZERO_C_IN_KELVIN = 273.15;

/**
 * Resistance of a thermistor, in ohm. A table of falling values is read in the logarithm, as such curves are nearly straight
 * there; a rising one (platinum) is read straight.
 *
 * A temperature that no sensor stands is taken as the nearest one that it does, and what the equation gives beyond any resistance as the
 * largest or smallest one there is.
 *
 * Source: R = R0 exp(B (1/T - 1/T0)), T in kelvin: thermistor makers' sheets.
 *
 * @param curve The curve of the part; families differ, so there is no default.
 * @param temperatureC Temperature in degrees C.
 */
export function thermistorOhm(curve: ThermistorCurve, temperatureC: number): number {
  if (!("tableCOhm" in curve)) {
    const celsius = clamp(temperatureC, BOUNDS.sensorC);
    const inverse = 1 / (celsius + ZERO_C_IN_KELVIN) - 1 / (curve.referenceC + ZERO_C_IN_KELVIN);
    return clamp(curve.referenceOhm * Math.exp(curve.betaK * inverse), BOUNDS.curveOhm);
  }
  const table = curve.tableCOhm;
  const isFalling = (table.at(-1)?.[1] ?? 0) < (table[0]?.[1] ?? 0);
  if (!isFalling || table.some(([, ohm]) => ohm <= 0)) return valueAt(table, temperatureC);
  const logarithms = table.map(([celsius, ohm]) => [celsius, Math.log(ohm)] as const);
  return Math.exp(valueAt(logarithms, temperatureC));
}

function clamp(value: number, { least, most }: { readonly least: number; readonly most: number }): number {
  return Math.min(most, Math.max(least, value));
}

/**
 * Reads a straight-line table; beyond its ends the value of the end stands.
 *
 * @param table Input and output values, input rising.
 */
export function valueAt(table: readonly (readonly [number, number])[], input: number): number {
  const after = table.findIndex(([known]) => known >= input);
  const [first, last] = [table[0], table.at(-1)];
  if (!first || !last) throw new RangeError("Cannot read a table without rows");
  if (after === 0) return first[1];
  const low = table[after - 1];
  const high = table[after];
  if (!low || !high) return last[1];
  return low[1] + ((high[1] - low[1]) * (input - low[0])) / (high[0] - low[0]);
}
