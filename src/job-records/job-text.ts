import { formatMinutes, formatQuantity, safeLines, unreachable } from "../base/index.ts";
import { replayEvents, type JobFacts } from "./replay-events.ts";
import type { EnteredReading, JobRecord, RecordedCheck } from "./schema.ts";

/**
 * A job as a text for the work order, in the three parts of the trade: complaint, cause, correction.
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
  const words = [temperature, wetness, load, presence?.replaceAll("-", " "), weather && `weather: ${weather}`];
  const since = complaint.since === undefined ? undefined : `since ${complaint.since}`;
  return [...words, since].filter((word) => word !== undefined && word !== "").map(String);
}

function complaintLines(facts: JobFacts): readonly string[] {
  const { complaint, codes, symptoms } = facts;
  const conditions = conditionWords(facts);
  return [
    complaint.words === "" ? "Not written down." : complaint.words,
    ...(conditions.length > 0 ? [`Conditions: ${conditions.join("; ")}`] : []),
    ...complaint.recentWork.map(
      ({ text, touched }) => `Done before: ${text}${touched.length > 0 ? ` (${touched.join(", ")})` : ""}`,
    ),
    ...(codes.size > 0 ? [`Codes: ${[...codes].map(([code, status]) => `${code} ${status}`).join(", ")}`] : []),
    ...(symptoms.size > 0 ? [`Functions: ${[...symptoms].map(([item, is]) => `${item} ${is}`).join(", ")}`] : []),
  ];
}

function causeLines({ cause, readings }: JobFacts): readonly string[] {
  const done = readings.filter(({ given }) => given.kind !== "not-possible");
  const minutes = done.reduce((sum, { check }) => sum + check.minutes, 0);
  const checks = readings.map(
    ({ check, given, verdict, isAmended }, index) =>
      `${index + 1}. ${checkLine(check)}; measured ${describeEntered(given)}${isAmended ? " (corrected)" : ""}; ${verdict.replaceAll("-", " ")}`,
  );
  return [
    cause ? causeWords(cause) : "Not established.",
    ...(checks.length > 0 ? [`Checks (${formatMinutes(minutes)} planned):`, ...checks] : ["No checks written down."]),
  ];
}

/** What it was and why it came to that; records of version 0.1 name the suspect in the text already. */
export function causeWords({ suspect, text }: NonNullable<JobFacts["cause"]>): string {
  return text.startsWith(`${suspect}: `) ? text : `${suspect}: ${text}`;
}

function correctionLines({ repairs, proofs, closed, notes }: JobFacts): readonly string[] {
  return [
    ...(repairs.length === 0 ? ["No repair written down."] : []),
    ...repairs.map(({ text, parts, minutes }) =>
      [text, parts.length > 0 ? `parts: ${parts.join(", ")}` : "", minutes === undefined ? "" : formatMinutes(minutes)]
        .filter((part) => part !== "")
        .join("; "),
    ),
    ...(proofs.length === 0 ? ["Repair not proven by a check."] : []),
    ...proofs.map(
      ({ check, given, verdict }) =>
        `Proof: ${checkLine(check)}; measured ${describeEntered(given)}; ${verdict.replaceAll("-", " ")}`,
    ),
    ...notes.map(({ text }) => `Note: ${text}`),
    ...(closed
      ? [`Closed: ${closed.outcome.replaceAll("-", " ")}.`, `Not checked: ${closed.notChecked ?? "not said"}`]
      : ["Job still open."]),
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
      const notes = [given.isDoubtful ? "doubtful" : "", given.isMeterProven ? "meter proven" : ""].filter(
        (note) => note !== "",
      );
      const value = formatQuantity(given.value, given.unit);
      return notes.length > 0 ? `${value} (${notes.join(", ")})` : value;
    }
    case "overload":
      return given.isMeterProven ? "over range (meter proven)" : "over range";
    case "unstable":
      return "unstable";
    case "outcome":
      return given.outcome.replaceAll("-", " ");
    case "unsure":
      return "not sure";
    case "not-possible":
      return given.reason === undefined ? "could not be done" : `could not be done: ${given.reason}`;
    default:
      return unreachable(given);
  }
}
