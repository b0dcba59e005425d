import { formatQuantity, unreachable } from "../base/index.ts";
import type { GivenReading } from "./schema.ts";

/**
 * A reading in words; a value as a meter shows it, whatever was typed.
 *
 * @param given The reading.
 */
export function describeGiven(given: GivenReading): string {
  switch (given.kind) {
    case "value": {
      const notes = [given.isDoubtful ? "doubtful" : "", given.isMeterProven ? "meter proven" : ""].filter(
        (note) => note !== "",
      );
      const value = formatQuantity(given.value, given.unit);
      return notes.length > 0 ? `${value} (${notes.join(", ")})` : value;
    }
    case "over-range":
      return given.isMeterProven ? "over range (meter proven)" : "over range";
    case "unsteady":
      return "unsteady";
    case "outcome":
      return given.outcome.replaceAll("-", " ");
    case "not-sure":
      return "not sure";
    case "cannot-be-done":
      return given.reason === undefined ? "could not be done" : `could not be done: ${given.reason}`;
    default:
      return unreachable(given);
  }
}
