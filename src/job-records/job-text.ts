import { formatMinutes, formatQuantity, safeLines, unreachable } from "../base/index.ts";
import { replayEvents, type JobFacts } from "./replay-events.ts";
import {
  INSPECTION_OUTCOME_NAMES,
  OUTCOME_NAMES,
  PRESENCE_NAMES,
  STATUS_NAMES,
  SYMPTOM_NAMES,
  VERDICT_NAMES,
} from "./job-words.ts";
import type { EnteredReading, JobRecord, RecordedCheck } from "./schema.ts";

/**
 * A job as a repair report, in three parts: complaint, cause, correction.
 *
 * @returns Plain text with a line end at its end. What is not known yet is said, not left out.
 */
export function jobText(record: JobRecord): string {
  const facts = replayEvents(record);
  const { machine } = record;
  const revision = machine.revision === undefined ? "" : `, data revision ${machine.revision}`;
  const lines = [
    `Job ${record.id}, opened ${record.openedAt}`,
    `Machine: ${machine.machine}, build ${machine.build.label}${revision} (${machine.contentHash})`,
    "",
    "COMPLAINT",
    ...complaintLines(facts),
    "",
    "CAUSE",
    ...causeLines(facts),
    "",
    "CORRECTION",
    ...correctionLines(facts),
  ];
  return safeLines(lines);
}

/** The conditions of a complaint in words, each once. */
export function conditionWords({ complaint }: Pick<JobFacts, "complaint">): readonly string[] {
  const { temperature, wetness, load, presence, weather } = complaint.conditions;
  const words = [temperature, wetness, load, presence && PRESENCE_NAMES[presence], weather && `weather: ${weather}`];
  const since = complaint.since === undefined ? undefined : `since ${complaint.since}`;
  return [...words, since].filter((word) => word !== undefined && word !== "").map(String);
}

function complaintLines(facts: JobFacts): readonly string[] {
  const { complaint, codes, symptoms } = facts;
  const conditions = conditionWords(facts);
  return [
    complaint.words === "" ? "Not recorded." : complaint.words,
    ...(conditions.length > 0 ? [`Conditions: ${conditions.join("; ")}`] : []),
    ...complaint.recentWork.map(
      ({ text, touched }) => `Recent work: ${text}${touched.length > 0 ? ` (${touched.join(", ")})` : ""}`,
    ),
    ...(codes.size > 0
      ? [`DTCs: ${[...codes].map(([code, status]) => `${code} ${STATUS_NAMES[status]}`).join(", ")}`]
      : []),
    ...(symptoms.size > 0
      ? [`Symptoms: ${[...symptoms].map(([item, is]) => `${item} ${SYMPTOM_NAMES[is]}`).join(", ")}`]
      : []),
  ];
}

function causeLines({ cause, readings }: JobFacts): readonly string[] {
  const done = readings.filter(({ given }) => given.kind !== "not-possible");
  const minutes = done.reduce((sum, { check }) => sum + check.minutes, 0);
  const checks = readings.map(
    ({ check, given, verdict, isAmended }, index) =>
      `${index + 1}. ${checkLine(check)}; measured ${describeEntered(given)}${isAmended ? " (corrected)" : ""}; ${VERDICT_NAMES[verdict]}`,
  );
  return [
    cause ? causeWords(cause) : "Not known.",
    ...(checks.length > 0 ? [`Tests (${formatMinutes(minutes)} planned):`, ...checks] : ["No tests recorded."]),
  ];
}

/** What failed and why; records of version 0.1 name the suspect in the text already. */
export function causeWords({ suspect, text }: NonNullable<JobFacts["cause"]>): string {
  return text.startsWith(`${suspect}: `) ? text : `${suspect}: ${text}`;
}

function correctionLines({ repairs, proofs, closed, notes }: JobFacts): readonly string[] {
  return [
    ...(repairs.length === 0 ? ["No repair recorded."] : []),
    ...repairs.map(({ text, parts, minutes }) =>
      [text, parts.length > 0 ? `parts: ${parts.join(", ")}` : "", minutes === undefined ? "" : formatMinutes(minutes)]
        .filter((part) => part !== "")
        .join("; "),
    ),
    ...(proofs.length === 0 ? ["Repair not verified."] : []),
    ...proofs.map(
      ({ check, given, verdict }) =>
        `Verification: ${checkLine(check)}; measured ${describeEntered(given)}; ${VERDICT_NAMES[verdict]}`,
    ),
    ...notes.map(({ text }) => `Note: ${text}`),
    ...(closed
      ? [`Closed: ${OUTCOME_NAMES[closed.outcome]}.`, `Not checked: ${closed.notChecked ?? "not recorded"}`]
      : ["The job is still open."]),
  ];
}

function checkLine({ point, condition, setup, meter, expected }: RecordedCheck): string {
  const ready = setup.length > 0 ? `, ${setup.join(", ")}` : "";
  return `${point}; ${condition}${ready}; ${meter}; expected ${expected}`;
}

/** A reading in words; a value as a meter shows it, whatever was typed. */
export function describeEntered(given: EnteredReading): string {
  switch (given.kind) {
    case "value": {
      const notes = [given.isDoubtful ? "uncertain" : "", given.isMeterProven ? "meter proven" : ""].filter(
        (note) => note !== "",
      );
      const value = formatQuantity(given.value, given.unit);
      return notes.length > 0 ? `${value} (${notes.join(", ")})` : value;
    }
    case "overload":
      return given.isMeterProven ? "OL (over range; meter proven)" : "OL (over range)";
    case "unstable":
      return "unstable reading";
    case "outcome":
      return outcomeName(given.outcome);
    case "unsure":
      return "unsure";
    case "not-possible":
      return given.reason === undefined ? "not possible" : `not possible: ${given.reason}`;
    default:
      return unreachable(given);
  }
}

/** The outcome of a check without a meter in words; records may hold an outcome that this program does not know. */
function outcomeName(outcome: string): string {
  return isOutcome(outcome) ? INSPECTION_OUTCOME_NAMES[outcome] : outcome.replaceAll("-", " ");
}

function isOutcome(outcome: string): outcome is keyof typeof INSPECTION_OUTCOME_NAMES {
  return Object.hasOwn(INSPECTION_OUTCOME_NAMES, outcome);
}
