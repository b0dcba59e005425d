import { formatQuantity, unreachable } from "../../base/index.ts";
import type { ReadingFacts } from "./reading-facts.ts";

/** Below this a reading looks like none, in volt. */
const NEARLY_NOTHING_VOLT = 0.1;

/**
 * A reading in few words: `10.2 V`, `floating`.
 *
 * @param reading The reading.
 */
export function shortReading({ kind, value, unit }: ReadingFacts): string {
  switch (kind) {
    case "value":
      return value === null ? "" : formatQuantity(value, unit);
    case "floating":
      return "floating point, not 0 V";
    case "overload":
      return unit === "Ω" ? "OL (over range), open path" : "OL (over range)";
    case "refused":
      return "do not measure in this state";
    case "contradictory":
      return "no value, the sources contradict each other";
    case "no-steady-state":
      return "no value, the machine does not settle";
    default:
      return unreachable(kind);
  }
}

/**
 * The band of a reading, `9.61 V to 10.8 V`; empty where there is none.
 *
 * @param reading The reading.
 */
export function bandOf({ low, high, unit }: ReadingFacts): string {
  return low === null || high === null ? "" : `${formatQuantity(low, unit)} to ${formatQuantity(high, unit)}`;
}

/**
 * What a reading means, in a sentence or two.
 *
 * @param reading The reading.
 */
export function meaningOf(reading: ReadingFacts): string {
  const { kind, unit } = reading;
  switch (kind) {
    case "value":
      return `The meter shows ${shortReading(reading)}. Within limits: ${bandOf(reading)}.${aboutZero(reading)}`;
    case "floating":
      return "Floating point: not 0 V. Nothing holds this point. The reading is unstable near 0 V. It shows an open path, not a connection between two points.";
    case "overload":
      return unit === "Ω"
        ? "OL (over range): there is no path for the current of the meter from lead to lead. The path is open. It is the opposite of 0 Ω."
        : "OL (over range): more than the highest range of the meter.";
    case "refused":
      return "Do not measure in this state. The reading has no meaning or does damage.";
    case "contradictory":
      return "There is no value. Ideal sources contradict each other in these conditions.";
    case "no-steady-state":
      return "There is no value. The machine does not settle in these conditions.";
    default:
      return unreachable(kind);
  }
}

function aboutZero({ value, unit }: ReadingFacts): string {
  if (unit !== "V" || value === null || Math.abs(value) >= NEARLY_NOTHING_VOLT) return "";
  return " About 0 V is a true reading here. A path joins the two leads. It is not a floating point.";
}
