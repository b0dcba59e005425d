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
      return "floating, no voltage of its own";
    case "overload":
      return unit === "Ω" ? "over range, an open way" : "over range";
    case "refused":
      return "not to be measured";
    case "contradictory":
      return "no figure, the sources contradict each other";
    case "no-steady-state":
      return "no figure, the machine does not settle";
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
      return `The meter shows ${shortReading(reading)}; readings of ${bandOf(reading)} agree with this situation.${aboutZero(reading)}`;
    case "floating":
      return "Floating: nothing ties one lead to the other. The display wanders near 0 V, and that is no zero: it says that a way is open, not that two points are joined.";
    case "overload":
      return unit === "Ω"
        ? "Over range: no way for the current of the meter from lead to lead. That is an open way, the opposite of 0 Ω."
        : "Over range: more than the highest range of the meter.";
    case "refused":
      return "Not to be measured: the reading would mean nothing or do harm.";
    case "contradictory":
      return "There is no figure: in this situation ideal sources contradict each other.";
    case "no-steady-state":
      return "There is no figure: in this situation the machine does not come to rest.";
    default:
      return unreachable(kind);
  }
}

function aboutZero({ value, unit }: ReadingFacts): string {
  if (unit !== "V" || value === null || Math.abs(value) >= NEARLY_NOTHING_VOLT) return "";
  return " About 0 V is a true reading here: both leads are tied to each other, unlike a lead on nothing, which floats.";
}
