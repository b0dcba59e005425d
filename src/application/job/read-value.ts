import { err, ok, type Result } from "../../base/index.ts";
import {
  isMeterCheck,
  needsVerification,
  outcomeChoices,
  parseReading,
  readingScale,
  verdictOf,
  type JobState,
  type ReadingProblem,
} from "../../diagnosis/index.ts";
import type { EnteredReading } from "../../job-records/index.ts";
import type { PermittedCheck } from "./check-codes.ts";
import type { JobProblem, JobRefusal } from "./job-answers.ts";
import { refuse } from "./refuse.ts";

/** A reading as typed, with what was said about the meter. */
export interface ValueRequest {
  /** Such as `12.4 V`, `over range`, `unstable`, `not sure`, or an outcome of a test without a meter. */
  readonly value: string;
  /** The unit of a number that is written without one, such as `mV`; V or Ω where absent. */
  readonly unit?: string;
  readonly isMeterProven?: boolean;
  /** Asks back, before anything is recorded, where a bad probe would show the same and nothing is known of the meter. */
  readonly asksVerification?: boolean;
  readonly isDoubtful?: boolean;
}

/**
 * Reads what was typed as the reading of a check.
 *
 * @param state The job.
 * @param check The check.
 * @param request What was typed.
 */
export function readValue(
  state: JobState,
  check: PermittedCheck,
  { value, unit, isMeterProven = false, isDoubtful = false }: ValueRequest,
): Result<EnteredReading, JobProblem> {
  // Written with hyphens the words need no quotation marks.
  const typed = value.trim().replace(/(?<=\p{L})-(?=\p{L})/gu, " ");
  const read = /^(?:as expected|pass)$/iu.test(typed)
    ? asExpected(state, check)
    : parseTyped(state, check, { typed, unit });
  const problem = (message: string, ways: ReadingProblem["ways"] = []): Result<never, JobProblem> =>
    err({ at: "reading", message, hint: hintFor(check), ...(ways.length > 0 && { ways: [...ways] }) });
  if (!read.ok) return problem(read.error.text, read.error.ways);
  const given = read.value;
  if (given.kind === "value") {
    return ok({ ...given, ...(isMeterProven && { isMeterProven }), ...(isDoubtful && { isDoubtful }) });
  }
  if (isDoubtful) return problem('Only a number can be uncertain. Write "not sure" if you could not read the display.');
  if (given.kind === "overload") return ok({ ...given, ...(isMeterProven && { isMeterProven }) });
  if (isMeterProven) return problem("--meter-proven belongs to a number or to over range.");
  return read;
}

function parseTyped(
  state: JobState,
  check: PermittedCheck,
  { typed, unit }: { readonly typed: string; readonly unit: string | undefined },
): Result<EnteredReading, ReadingProblem> {
  const assume = unit === undefined ? {} : { assume: unit };
  return parseReading(check, typed, isMeterCheck(check) ? { scale: readingScale(state.model, check), ...assume } : {});
}

/** The record needs what was measured; only what has no value may be given by its name. */
function asExpected(state: JobState, check: PermittedCheck): Result<EnteredReading, ReadingProblem> {
  const [normal] = outcomeChoices(check);
  if (normal) return ok({ kind: "outcome", outcome: normal.id });
  const words: readonly EnteredReading[] = [{ kind: "overload" }, { kind: "unstable" }];
  const given = words.find((each) => verdictOf(state, check, each) === "pass");
  const text = "The record keeps the measured value. Write the number that the meter shows.";
  return given ? ok(given) : err({ text, ways: [] });
}

function hintFor(check: PermittedCheck): string {
  if (isMeterCheck(check)) {
    const example = check.kind === "dc-voltage" ? "12.4 V or 350 mV" : "0.6 ohm or 2.2 k";
    return `Write a number such as ${example}, "over range", "unsteady" or "not sure". If the test is not possible: "ohmward job skip".`;
  }
  const choices = outcomeChoices(check).map(({ id, label }) => `"${id}" (${label})`);
  return `Write ${choices.join(" or ")}, or "not sure".`;
}

/** Asks back where a bad probe or a broken lead would show the same; undefined where nothing is to be asked. */
export function unproven(
  { kind }: PermittedCheck,
  step: ValueRequest,
  given: EnteredReading,
): Result<never, JobRefusal> | undefined {
  if (step.asksVerification !== true || step.isMeterProven !== undefined || !needsVerification(given)) return undefined;
  const shown = given.kind === "overload" ? "an open line" : "zero";
  const hint =
    kind === "resistance"
      ? "Hold the probes together. The meter must show nearly 0 Ω."
      : "Prove the meter on a live point. Then answer.";
  const problem = { at: "--meter-proven", message: `A bad probe or a broken lead also shows ${shown}.`, hint };
  return refuse("unproven", "Did you prove the meter on a live point?", [problem]);
}
