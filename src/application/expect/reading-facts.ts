import { unreachable } from "../../base/index.ts";
import { HAND_METER, meterLimit, type Because, type Reading } from "../../simulation/index.ts";
import type { ExpectMeter } from "../question.ts";
import type { ExpectedReadingAnswer } from "./expected-answer.ts";

/** A reading that is one: everything but a wrong question. */
export type TrueReading = Exclude<Reading, { readonly kind: "wrong-question" }>;

/** The figures of a reading as an answer carries them. */
export type ReadingFacts = Pick<ExpectedReadingAnswer, "kind" | "value" | "unit" | "low" | "high">;

const UNITS = {
  "dc-voltage": "V",
  "voltage-drop": "V",
  "test-lamp": "V",
  resistance: "Ω",
  "dc-current": "A",
  "duty-cycle": "%",
} as const satisfies Record<ExpectMeter, ReadingFacts["unit"]>;

/**
 * The figures of a reading; null where there are none.
 *
 * @param reading The reading.
 * @param meter What is measured, for the unit where the reading has none of its own.
 */
export function readingFacts(reading: TrueReading, meter: ExpectMeter): ReadingFacts {
  if (reading.kind !== "value") return { kind: reading.kind, value: null, unit: UNITS[meter], low: null, high: null };
  const { kind, value, unit, low, high } = reading;
  return { kind, value, unit, low, high };
}

/** The reasons of a reading, those that have no figure included. */
export function reasonsOf(
  reading: TrueReading,
): readonly (Because | { readonly code: string; readonly text: string })[] {
  switch (reading.kind) {
    case "contradictory": {
      const sources = reading.sources.length === 0 ? "without resistance" : reading.sources.join(", ");
      return [{ code: "contradictory", text: `Ideal sources that contradict each other: ${sources}` }];
    }
    case "no-steady-state":
      return [
        {
          code: "no-steady-state",
          text: `These switch on and off and never settle: ${reading.noOperatingPoint.join(", ")}`,
        },
      ];
    case "value":
    case "floating":
    case "overload":
    case "refused":
      return reading.because;
    default:
      return unreachable(reading);
  }
}

/**
 * Whether a meter tells two readings apart: they differ in kind, or by more than the meter may be off at both.
 *
 * @param one A reading.
 * @param other The other one, taken with the same meter.
 */
export function isToldApart(one: ReadingFacts, other: ReadingFacts): boolean {
  if (one.value === null || other.value === null) return one.kind !== other.kind;
  const how = { V: HAND_METER.volts, Ω: HAND_METER.ohms, A: HAND_METER.clampAmps, "%": HAND_METER.duty }[one.unit];
  const limit = (value: number): number => meterLimit(how, value)?.limit ?? 0;
  return Math.abs(one.value - other.value) > limit(one.value) + limit(other.value);
}
