import { err, ok, type Result } from "../../base/index.ts";
import { BOUNDS, boundsText, isWithin } from "../../model/index.ts";
import type { GivenReading } from "../../records/index.ts";
import type { HandCheck, MeterCheck } from "../checks/check.ts";
import { isMeterCheck, type Check } from "../checks/check.ts";
import { outcomesOf } from "../checks/hand-outcomes.ts";

const OVER_RANGE = /^(?:ol|o\.l\.?|over ?(?:range|load|limit)|open|inf(?:inity)?|∞|1 ?\.)$/iu;
const UNSTEADY = /^(?:unsteady|jumps|jumping|wanders|wandering|erratic|moving)$/iu;
const NOT_SURE = /^(?:not sure|unsure|\?+|don'?t know|do not know)$/iu;
const CANNOT = /^(?:cannot(?: be done)?|can'?t|not possible|skip)(?:\s*[:,-]?\s+(.*))?$/iu;
const VALUE =
  /^([-+]?(?:\d+(?:[.,]\d*)?|[.,]\d+))\s*(m|k|M|meg|u|µ)?\s*(v|volts?|ohms?|Ω|r|a|amps?|amperes?)?(\s*\?)?$/iu;

const FACTORS: ReadonlyMap<string, number> = new Map([
  ["m", 1e-3],
  ["k", 1e3],
  ["K", 1e3],
  ["M", 1e6],
  ["meg", 1e6],
  ["u", 1e-6],
  ["µ", 1e-6],
]);

/**
 * Reads what a person typed as the outcome of a check: a number with or without unit and prefix, decimal point or comma; over range as
 * meters show it; unsteady; not sure; cannot be done; or the outcome of a look. A question mark after a number makes it doubtful.
 *
 * @param check The check.
 * @param text What was typed.
 * @returns The reading, or a sentence that says what was expected.
 * @example
 * ```ts
 * import { parseReading } from "ohmward/diagnosis";
 * const read = parseReading({ kind: "ohms" }, "1,2 k");
 * expect(read).toEqual({ ok: true, value: { kind: "value", text: "1,2 k", value: 1200, unit: "Ω" } });
 * ```
 */
export function parseReading(
  check: Pick<MeterCheck, "kind"> | Pick<HandCheck, "kind" | "key" | "need" | "at" | "minutes">,
  text: string,
): Result<GivenReading, string> {
  const typed = text.trim();
  if (NOT_SURE.test(typed)) return ok({ kind: "not-sure" });
  const cannot = CANNOT.exec(typed);
  if (cannot) return ok({ kind: "cannot-be-done", ...(cannot[1] ? { reason: cannot[1] } : {}) });
  if (check.kind === "volts" || check.kind === "ohms") return parseMeter(check.kind, typed);
  return "at" in check ? parseOutcome(check, typed) : err("This check has no number");
}

function parseMeter(kind: MeterCheck["kind"], typed: string): Result<GivenReading, string> {
  if (OVER_RANGE.test(typed)) return ok({ kind: "over-range" });
  if (UNSTEADY.test(typed)) return ok({ kind: "unsteady" });
  const unit = kind === "volts" ? ("V" as const) : ("Ω" as const);
  const [, digits = "", prefix = "", unitWord = "", doubt] = VALUE.exec(typed) ?? [];
  const number = Number(digits.replace(",", "."));
  if (digits === "" || !Number.isFinite(number)) {
    return err(
      `Not a reading: "${typed}". Write a number such as ${kind === "volts" ? "12.4 V" : "0.6 ohm"}, "over range", "unsteady" or "not sure"`,
    );
  }
  if (unitWord !== "" && unitOf(unitWord) !== unit) {
    return err(`This check is read in ${unit}, not in ${unitWord}: look at the range of the meter`);
  }
  const value = number * (FACTORS.get(prefix) ?? FACTORS.get(prefix.toLowerCase()) ?? 1);
  if (!isWithin(BOUNDS.reading, value)) return err(`Not a reading: ${boundsText(BOUNDS.reading)}`);
  return ok({ kind: "value", text: typed, value, unit, ...(doubt ? { isDoubtful: true } : {}) });
}

function unitOf(word: string): GivenReading extends { unit: infer Unit } ? Unit : "V" | "Ω" | "A" {
  if (/^v/iu.test(word)) return "V";
  return /^a/iu.test(word) ? "A" : "Ω";
}

function parseOutcome(check: HandCheck, typed: string): Result<GivenReading, string> {
  const outcomes = outcomesOf(check);
  const lower = typed.toLowerCase();
  const found = outcomes.find(({ id, label }) => id === lower || label.toLowerCase() === lower);
  const words = outcomes.map(({ id }) => `"${id}"`).join(" or ");
  return found
    ? ok({ kind: "outcome", outcome: found.id })
    : err(`Not an outcome: "${typed}". Write ${words}, or "not sure"`);
}

/** The outcomes that a person may choose from, for a check without a meter; none for a meter check. */
export function outcomeChoices(check: Check): readonly { readonly id: string; readonly label: string }[] {
  return isMeterCheck(check) ? [] : outcomesOf(check);
}
