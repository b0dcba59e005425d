import type { QuantityScale, QuantityUnit } from "ohmward/base";

/** What is read here: the unit meant, and what can be expected. */
export type SpellingContext =
  "Ω" | "V" | "A" | "mm" | "mm²" | "number" | "V at 12 V" | "Ω about 1" | "mm, comma" | "mm, point";

/** What each context tells the reader. */
export const CONTEXTS: Readonly<
  Record<
    SpellingContext,
    { units: readonly QuantityUnit[]; scale?: QuantityScale; decimal?: "comma" | "point"; isMeter?: boolean }
  >
> = {
  Ω: { units: ["Ω"], isMeter: true },
  V: { units: ["V"], isMeter: true },
  A: { units: ["A"], isMeter: true },
  mm: { units: ["mm"] },
  "mm²": { units: ["mm²"] },
  number: { units: [] },
  "V at 12 V": { units: ["V"], isMeter: true, scale: { low: 0, high: 30, most: 600 } },
  "Ω about 1": { units: ["Ω"], isMeter: true, scale: { low: 0.1, high: 50, most: Infinity } },
  "mm, comma": { units: ["mm"], decimal: "comma" },
  "mm, point": { units: ["mm"], decimal: "point" },
};
