import type { QuantityReading } from "./read-quantity.ts";

/**
 * What a person is told about a text that is no plain value: the ways to take it and how to write each, or what is wrong and where.
 *
 * @param typed the text as it was typed
 * @param reading what was read
 * @returns a sentence or two, with a full stop at the end
 *
 * @example
 * ```ts
 * import { quantityProblem, readQuantity } from "ohmward/base";
 *
 * const reading = readQuantity("1,200", { units: ["Ω"] });
 * expect(reading.kind !== "value" && quantityProblem("1,200", reading)).toBe(
 *   '"1,200" can be 1.2 Ω or 1200 Ω: a comma or point stands before decimals or between thousands. Write "1.2 Ω" or "1200 Ω".',
 * );
 * ```
 */
export function quantityProblem(typed: string, reading: Exclude<QuantityReading, { kind: "value" }>): string {
  const text = typed.length > 80 ? `${typed.slice(0, 77)}...` : typed;
  if (reading.kind === "overload") return `"${text}" says over range, and a value is wanted here.`;
  if (reading.kind === "refusal")
    return `"${text}" cannot be read, character ${reading.at + 1}: ${reading.why}. Write a value such as ${reading.instead}.`;
  const { ways, why } = reading;
  const labels = ways.map(({ label }) => label).join(" or ");
  const writes = ways.map(({ write }) => `"${write}"`).join(" or ");
  return ways.length === 1
    ? `"${text}" is asked about: ${why}. Write ${writes} if that is meant.`
    : `"${text}" can be ${labels}: ${why}. Write ${writes}.`;
}
