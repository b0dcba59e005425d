import {
  err,
  ok,
  quantityProblem,
  readQuantity,
  type QuantityQuestion,
  type QuantityWay,
  type Result,
} from "../../base/index.ts";
import { BOUNDS, boundsText, isWithin } from "../../harness-model/index.ts";
import type { EnteredReading } from "../../job-records/index.ts";
import { UNIT_OF_METER } from "../belief/meter-scale.ts";
import type { InspectionCheck, MeterCheck } from "../checks/check.ts";
import { isMeterCheck, type Check } from "../checks/check.ts";
import { outcomesOf } from "../checks/inspection-outcomes.ts";

const UNSTEADY = /^(?:unsteady|unstable|jumps|jumping|wanders|wandering|erratic|moving)$/iu;
const NOT_SURE = /^(?:not sure|unsure|\?+|don'?t know|do not know)$/iu;
const CANNOT = /^(?:cannot(?: be done)?|can'?t|not possible|skip)(?:\s*[:,-]?\s+(.*))?$/iu;
const DOUBT = /\s*\?$/u;

/** Why a reading was not taken: the message, and the meanings to choose from where the text has several. */
export interface ReadingProblem {
  readonly text: string;
  readonly ways: readonly QuantityWay[];
}

/** What is known of a reading before it is typed. */
type ReadingContext = Pick<QuantityQuestion, "scale" | "assume">;

/**
 * Reads what a person typed as the outcome of a check: a value as `readQuantity` takes it; over range as meters show it; unstable; unsure;
 * not possible; or the outcome of an inspection. A question mark after a number makes it uncertain.
 *
 * @param text What was typed.
 * @param context What can be expected, and the unit of a bare number.
 * @returns The reading; or what is wrong with the text, with its possible meanings.
 * @example
 * ```ts
 * import { parseReading } from "ohmward/diagnosis";
 * const read = parseReading({ kind: "resistance" }, "1,2 k");
 * expect(read).toEqual({ ok: true, value: { kind: "value", text: "1,2 k", value: 1200, unit: "Ω" } });
 * const asked = parseReading({ kind: "resistance" }, "1,200");
 * expect(asked.ok ? [] : asked.error.ways.map(({ write }) => write)).toEqual(["1.2 Ω", "1200 Ω"]);
 * ```
 */
export function parseReading(
  check: Pick<MeterCheck, "kind"> | Pick<InspectionCheck, "kind" | "key" | "need" | "at" | "minutes">,
  text: string,
  context: ReadingContext = {},
): Result<EnteredReading, ReadingProblem> {
  const typed = text.trim();
  if (NOT_SURE.test(typed)) return ok({ kind: "unsure" });
  const cannot = CANNOT.exec(typed);
  if (cannot) return ok({ kind: "not-possible", ...(cannot[1] ? { reason: cannot[1] } : {}) });
  if (check.kind === "dc-voltage" || check.kind === "resistance") return parseMeter(check.kind, typed, context);
  return "at" in check ? parseOutcome(check, typed) : err({ text: "This test has no number.", ways: [] });
}

function parseMeter(
  kind: MeterCheck["kind"],
  typed: string,
  context: ReadingContext,
): Result<EnteredReading, ReadingProblem> {
  if (UNSTEADY.test(typed)) return ok({ kind: "unstable" });
  const unit = UNIT_OF_METER[kind];
  const isDoubtful = DOUBT.test(typed);
  const read = readQuantity(typed.replace(DOUBT, ""), { ...context, units: [unit], isMeter: true });
  if (read.kind === "overload") return ok({ kind: "overload" });
  if (read.kind === "value" && !isWithin(BOUNDS.reading, read.value))
    return err({ text: `This is not a reading: ${boundsText(BOUNDS.reading)}`, ways: [] });
  if (read.kind === "value")
    return ok({ kind: "value", text: typed, value: read.value, unit, ...(isDoubtful && { isDoubtful }) });
  const ways = read.kind === "question" ? read.ways : [];
  return err({
    text: quantityProblem(typed, read),
    ways: isDoubtful ? ways.map(({ label, write }) => ({ label, write: `${write} ?` })) : ways,
  });
}

function parseOutcome(check: InspectionCheck, typed: string): Result<EnteredReading, ReadingProblem> {
  const outcomes = outcomesOf(check);
  const lower = typed.toLowerCase();
  const found = outcomes.find(({ id, label }) => id === lower || label.toLowerCase() === lower);
  const words = outcomes.map(({ id }) => `"${id}"`).join(" or ");
  return found
    ? ok({ kind: "outcome", outcome: found.id })
    : err({ text: `"${typed}" is not an outcome of this test. Write ${words}, or "not sure".`, ways: [] });
}

/** The outcomes that a person may choose from, for a check without a meter; none for a meter check. */
export function outcomeChoices(check: Check): readonly { readonly id: string; readonly label: string }[] {
  return isMeterCheck(check) ? [] : outcomesOf(check);
}
