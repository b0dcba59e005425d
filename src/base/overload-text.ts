import type { QuantityUnit } from "./quantity-units.ts";
import { readUnit } from "./quantity-units.ts";

/** As meters show it and people say it, without signs between the words. 0L is how seven segments write OL. */
const OVERLOAD: ReadonlySet<string> = new Set([
  ...["ol", "0l", "0vl", "ovl", "ovld", "over", "overrange", "overload", "overlimit", "overflow", "outofrange"],
]);
/** What only a meter on ohms means by it: on volts an open line reads no such thing. */
const OPEN: ReadonlySet<string> = new Set([
  ...["open", "openline", "openloop", "opencircuit", "inf", "infinite", "infinity", "∞"],
]);

/**
 * Whether a text is a meter's over range: `OL`, `0.L`, `O.L MΩ`, `over range`; on ohms also `open line` and `∞`.
 * Common practice, no source.
 *
 * @param text signs as `plainSigns` writes them
 * @param units the units that are read here
 */
export function isOverloadText(text: string, units: readonly QuantityUnit[]): boolean {
  const words = text.trim().toLowerCase();
  const isOverload = (said: string): boolean => {
    const plain = said.replace(/[\s.-]/gu, "");
    return OVERLOAD.has(plain) || (OPEN.has(plain) && units.includes("Ω"));
  };
  if (isOverload(words)) return true;
  // A display shows the unit beside it.
  const [, said = "", unit = ""] = /^(.*\S)\s+(\S+)$/u.exec(text.trim()) ?? [];
  return isOverload(said.toLowerCase()) && readUnit(unit, units) !== undefined;
}
