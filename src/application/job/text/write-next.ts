import { formatMinutes, unreachable } from "../../../base/index.ts";
import { columns } from "../../text/columns.ts";
import { bullets, section } from "../../text/frame.ts";
import type { CheckFacts, CheckLine, JobNextAnswer, JobSuggestion } from "../job-answers.ts";
import { REPAIRED_IN_VAIN } from "../read-facts.ts";
import { checkRows, jobLine, percent, verificationLines, suspectRows } from "./job-words.ts";

/** Suspects that are shown beside a check. */
const SHOWN = 8;

/**
 * What to do next, as lines.
 *
 * @param answer The answer.
 * @param file The job as it is written on a command line, for the commands that are named.
 */
export function writeNext(answer: JobNextAnswer, file: string): readonly string[] {
  const { written, suggestion, suspects, missing, cautions, assumptions } = answer;
  return [
    ...(written ? [written.text, eventLine(written.events), ""] : []),
    titleOf(suggestion),
    jobLine(answer),
    "",
    ...whatToDo(suggestion),
    // Cautions stand beside what they are about, and before anybody goes on reading why.
    ...(suggestion.kind === "closed" ? [] : section("Cautions", bullets(cautions))),
    ...reasonLines(suggestion),
    ...section("Suspects", suggestion.kind === "closed" ? [] : suspectRows(suspects.slice(0, SHOWN))),
    ...section("Missing for a meter test", bullets(missing)),
    ...section("Taken for granted", suggestion.kind === "closed" ? [] : bullets(assumptions)),
    // Last, because the eye comes back to the end of a terminal.
    ...section("Write down", commandLines(suggestion, file)),
  ];
}

function eventLine(events: readonly string[]): string {
  const [first, ...more] = events;
  if (first === undefined) return "Nothing new was written down.";
  return more.length === 0 ? `Event ${first}` : `Events ${first} to ${more.at(-1) ?? first}`;
}

function titleOf(suggestion: JobSuggestion): string {
  switch (suggestion.kind) {
    case "check":
      return `${suggestion.isChosen ? "Chosen" : "Next"} check: ${suggestion.check.title}`;
    case "recheck":
      return `Read again: ${suggestion.check.title}`;
    case "prove-meter":
      return `Prove the meter, then read again: ${suggestion.check.title}`;
    case "repair":
      return `Repair: ${suggestion.suspect.label} (${percent(suggestion.suspect.share)})`;
    case "repair-in-order":
      return suggestion.reason === "inseparable"
        ? "Repair in this order: no permitted check parts these any more"
        : "Repair in this order: that takes less than checking on";
    case "look-wider":
      return "Look wider: no fault that was looked at agrees with the readings";
    case "nothing-to-go-on":
      return "Nothing to go on: no circuit or wire is known to be concerned";
    case "prove":
      return suggestion.text;
    case "closed":
      return `The job is closed: ${suggestion.outcome.replaceAll("-", " ")}.`;
    default:
      return unreachable(suggestion);
  }
}

function whatToDo(suggestion: JobSuggestion): readonly string[] {
  switch (suggestion.kind) {
    case "check":
      return checkRows(suggestion.check, suggestion.minutes);
    case "recheck":
    case "prove-meter":
      return [...checkRows(suggestion.check), ...section("Why", bullets(suggestion.why))];
    case "repair":
      return [...bullets(suggestion.notes), ...section("Then prove it", verificationLines(suggestion.proofs))];
    case "repair-in-order":
      return [
        ...suspectRows(suggestion.order),
        `  about ${formatMinutes(suggestion.minutes)} on average until the right one is done`,
        ...section("How the first is done", bullets(suggestion.notes)),
        ...section("Then prove it", verificationLines(suggestion.proofs)),
      ];
    case "look-wider":
      return bullets(suggestion.why);
    case "nothing-to-go-on":
      return bullets(suggestion.unknown.map((name) => `No wire in the data is joined to ${name}.`));
    case "prove":
      return verificationLines(suggestion.proofs);
    case "closed":
      return bullets(suggestion.text === "" ? [] : [suggestion.text]);
    default:
      return unreachable(suggestion);
  }
}

function reasonLines(suggestion: JobSuggestion): readonly string[] {
  if (suggestion.kind !== "check") return [];
  const rows = suggestion.outcomes.map(({ label, share, leaves }) => [
    label,
    percent(share).padStart(9),
    leaves
      .slice(0, 3)
      .map((left) => `${left.label} ${percent(left.share)}`)
      .join(", "),
  ]);
  return [
    ...section("What each outcome would leave", columns(rows)),
    ...section("Why this check", bullets(suggestion.why)),
    ...section("Other checks", checkLines(suggestion.others)),
  ];
}

/** The commands that may come next, with what they are for. */
function commandLines(suggestion: JobSuggestion, file: string): readonly string[] {
  switch (suggestion.kind) {
    case "check":
    case "recheck":
    case "prove-meter":
      return readingCommands(suggestion.check, file);
    case "repair":
    case "repair-in-order":
      return [`  ohmward job repair ${file} "<what was done>" --cause "<why it failed>"`];
    case "look-wider":
      return columns([
        [`ohmward job add ${file} --fails <function>`, "one more function that fails; --works for one that works"],
        [`ohmward job add ${file} --code <code>`, "one more code"],
        [`ohmward job correct ${file} <event> <value>`, "correct a reading"],
      ]);
    case "nothing-to-go-on":
      return columns([
        [`ohmward job add ${file} --code <code>`, "a code"],
        [`ohmward job add ${file} --fails <function>`, "a function that fails"],
      ]);
    case "prove":
      return proveCommands(suggestion, file);
    case "closed":
      return columns([[`ohmward job report ${file}`, "the job written up"]]);
    default:
      return unreachable(suggestion);
  }
}

function readingCommands({ choices, kind }: CheckFacts, file: string): readonly string[] {
  const example = kind === "dc-voltage" ? "12.4 V" : "0.6 ohm";
  const own = `ohmward job record ${file}`;
  const meter = [`${own} ${example}`, "or over range, unsteady, not sure; --meter-proven at 0 V and at an open line"];
  const seen = choices.map(({ id, label }) => [`${own} ${id}`, label]);
  return columns([
    ...(choices.length > 0 ? seen : [meter]),
    [`ohmward job skip ${file} <reason>`, "it cannot be done"],
  ]);
}

function proveCommands({ proofs, goOn }: Extract<JobSuggestion, { kind: "prove" }>, file: string): readonly string[] {
  const isFailed = proofs.some(({ result }) => result?.verdict === "fail");
  const isProven = proofs.every(({ result }) => result?.verdict === "pass");
  return columns([
    ...(isProven ? [] : [[`ohmward job verify ${file} <number> <reading>`, "or works, fails, not sure"]]),
    ...(isFailed
      ? [
          [
            `ohmward job add ${file} --probability-factor "${goOn?.of ?? "<suspect>"}=${REPAIRED_IN_VAIN.factor}: ${REPAIRED_IN_VAIN.origin}"`,
            "go on checking",
          ],
        ]
      : []),
    [`ohmward job close ${file} --outcome repaired`, isProven ? "" : "what is not proven is written down with it"],
  ]);
}

/** Checks in one line each. */
export function checkLines(checks: readonly CheckLine[]): readonly string[] {
  return columns(
    checks.map(({ code, title, condition, unplugged, minutes, bits, isDone }) => [
      code,
      title,
      [condition, ...unplugged.map((id) => `${id} unplugged`)].join(", "),
      formatMinutes(minutes),
      bits === undefined ? "" : `${bits.toFixed(2)} bit`,
      isDone ? "done" : "",
    ]),
  );
}
