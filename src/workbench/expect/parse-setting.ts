import { err, ok, type Result } from "../../base/index.ts";
import { BOUNDS, boundsText, isWithin } from "../../model/index.ts";
import type { Situation } from "../../electrics/index.ts";

/** One thing set by hand: how a part stands, or how much a quantity of the outside world is. */
export type Setting =
  | { readonly kind: "stand"; readonly of: string; readonly is: NonNullable<Situation["settings"]>[number]["is"] }
  | { readonly kind: "quantity"; readonly name: string; readonly value: number };

/**
 * Reads a setting from its text form, a syntax of this project's own: `S1.run=closed` (or `open`, `on`, `off`), `A1.drv-fan=40%` of the
 * time, or a quantity with a number in the unit the document gives it in, `coolant-temperature=80`.
 *
 * @param text The text.
 * @returns The setting, or a sentence that says what is wrong with the text. Whether the machine has the thing is not looked at.
 */
export function parseSetting(text: string): Result<Setting, string> {
  const equals = text.indexOf("=");
  const [of, value] = [text.slice(0, Math.max(0, equals)).trim(), text.slice(equals + 1).trim()];
  if (equals < 0 || of === "" || value === "")
    return err(`"${text}" sets nothing; write for example S1.run=closed, A1.drv-fan=40% or temperature=80`);
  switch (value) {
    case "open":
    case "closed":
    case "on":
    case "off":
      return ok({ kind: "stand", of, is: value });
  }
  const isShare = value.endsWith("%");
  const digits = isShare ? value.slice(0, -1).trim() : value;
  const number = /^[+-]?(?:\d+\.?\d*|\.\d+)$/u.test(digits) ? Number(digits) : NaN;
  if (!Number.isFinite(number)) return err(`"${text}": write open, closed, on, off, a share such as 40%, or a number`);
  const bounds = isShare ? BOUNDS.dutyPercent : BOUNDS.quantity;
  if (!isWithin(bounds, number)) return err(`"${text}": ${boundsText(bounds)}`);
  if (!isShare) return ok({ kind: "quantity", name: of, value: number });
  return ok({ kind: "stand", of, is: { dutyPercent: number } });
}
