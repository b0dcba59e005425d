import { formatMinutes, unreachable } from "../../../base/index.ts";
import { disconnectedWords } from "../../../diagnosis/index.ts";
import { OUTCOME_NAMES } from "../../../job-records/index.ts";
import { columns } from "../../text/columns.ts";
import { bullets, section } from "../../text/frame.ts";
import { inBrackets } from "../../text/write-expected.ts";
import type { CheckFacts, CheckLine, JobNextAnswer, JobSuggestion } from "../job-answers.ts";
import { REPAIRED_IN_VAIN } from "../read-facts.ts";
import { checkRows, jobLine, percent, verificationLines, suspectRows } from "./job-words.ts";

/** Possible causes that are shown beside a test. */
const SHOWN = 8;
/** A cause that an outcome leaves with this probability is named as the cause. */
const ENOUGH = 0.99;
/** The plan takes every reading as right, so no outcome makes a cause certain. */
const MOST_NAMED = 0.999;

/**
 * What to do next, as lines.
 *
 * @param answer The answer.
 * @param file The job as it is written on a command line, for the commands that are named.
 */
export function writeNext(answer: JobNextAnswer, file: string): readonly string[] {
  const { written, suggestion, suspects, missing, cautions, assumptions } = answer;
  const isOpen = suggestion.kind !== "closed";
  return [
    ...(written ? [written.text, eventLine(written.events), ""] : []),
    jobLine(answer),
    // Cautions come before the work they are about.
    ...(isOpen ? section("Cautions", bullets(cautions)) : []),
    "",
    titleOf(suggestion),
    ...whatToDo(suggestion),
    ...reasonLines(suggestion),
    ...section("Possible causes, with their probability", isOpen ? suspectRows(suspects.slice(0, SHOWN)) : []),
    ...section("Missing for a meter test", bullets(missing)),
    ...section("Assumptions", isOpen ? bullets(assumptions) : []),
    // Last, because the eye comes back to the end of a terminal.
    ...section("Record", commandLines(suggestion, file)),
  ];
}

function eventLine(events: readonly string[]): string {
  const [first, ...more] = events;
  if (first === undefined) return "Nothing new was recorded.";
  return more.length === 0 ? `Event ${first}` : `Events ${first} to ${more.at(-1) ?? first}`;
}

/** A title inside a sentence: its first letter is small, but for short forms such as DC. */
function inSentence(title: string): string {
  return title.replace(/^\p{Lu}(?=\p{Ll})/u, (letter) => letter.toLowerCase());
}

function titleOf(suggestion: JobSuggestion): string {
  switch (suggestion.kind) {
    case "check":
      return `${suggestion.isChosen ? "Chosen" : "Next"} test: ${inSentence(suggestion.check.title)}`;
    case "recheck":
      return `Measure again: ${inSentence(suggestion.check.title)}`;
    case "prove-meter":
      return `Prove the meter, then measure again: ${inSentence(suggestion.check.title)}`;
    case "repair":
      return `Repair: ${suggestion.suspect.label} (${percent(suggestion.suspect.share)})`;
    case "repair-in-order":
      return suggestion.reason === "inseparable"
        ? "No permitted test separates these causes. Repair in this order:"
        : "Repairs take less time than more tests. Repair in this order:";
    case "look-wider":
      return "No remaining cause fits. Widen the search.";
    case "no-electrical-fault":
      return "No electrical fault found.";
    case "nothing-to-go-on":
      return "No circuit or wire of the complaint is known.";
    case "prove":
      return suggestion.text;
    case "closed":
      return `The job is closed: ${OUTCOME_NAMES[suggestion.outcome]}.`;
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
      return [...bullets(suggestion.notes), ...section("Then verify the repair", verificationLines(suggestion.proofs))];
    case "repair-in-order":
      return [
        ...suspectRows(suggestion.order),
        `  About ${formatMinutes(suggestion.minutes)} on average until the right repair is done.`,
        ...section("Steps of the first repair", bullets(suggestion.notes)),
        ...section("Then verify the repair", verificationLines(suggestion.proofs)),
      ];
    case "look-wider":
    case "no-electrical-fault":
      return bullets(suggestion.why);
    case "nothing-to-go-on":
      return bullets(suggestion.unknown.map((name) => `No wire in the data is connected to ${name}.`));
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
  const { check, outcomes, why, others } = suggestion;
  const rows = outcomes.map(({ label, share, leaves }) => [
    `If ${resultName(check, label)} (${percent(share)})`,
    remainingWords(leaves),
  ]);
  return [
    ...columns([...rows, ["Why this test", why.join(" ")]], 0),
    ...section("Other permitted tests", checkLines(others)),
  ];
}

/** The outcomes of a check without a meter are pass and fail; readings are named by their values. */
function resultName({ choices }: CheckFacts, label: string): string {
  if (choices.length === 0) return label;
  return choices.some((each) => each.isNormal && each.label === label) ? "pass" : "fail";
}

/** What an outcome leaves: one cause, or those that remain. */
function remainingWords(leaves: Extract<JobSuggestion, { kind: "check" }>["outcomes"][number]["leaves"]): string {
  const [first] = leaves;
  if (first && first.share >= ENOUGH)
    return `cause: ${first.label}${inBrackets(percent(Math.min(first.share, MOST_NAMED)))}`;
  return `remaining: ${leaves
    .slice(0, 3)
    .map(({ label, share }) => `${label} ${percent(share)}`)
    .join(", ")}`;
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
    case "no-electrical-fault":
      return columns([
        [`ohmward job add ${file} --fails <function>`, "one more item that fails; --works for an item that works"],
        [`ohmward job add ${file} --code <code>`, "one more DTC"],
        [`ohmward job correct ${file} <event> <value>`, "correct a reading"],
      ]);
    case "nothing-to-go-on":
      return columns([
        [`ohmward job add ${file} --code <code>`, "a DTC"],
        [`ohmward job add ${file} --fails <function>`, "an item that fails"],
      ]);
    case "prove":
      return proveCommands(suggestion, file);
    case "closed":
      return columns([[`ohmward job report ${file}`, "the repair report"]]);
    default:
      return unreachable(suggestion);
  }
}

function readingCommands({ choices, kind }: CheckFacts, file: string): readonly string[] {
  const example = kind === "dc-voltage" ? "12.4 V" : "0.6 ohm";
  const own = `ohmward job record ${file}`;
  const meter = [
    `${own} ${example}`,
    "or over range, unsteady, not sure; add --meter-proven at 0 V and at an open line",
  ];
  const seen = choices.map(({ id, label }) => [`${own} ${id}`, label]);
  return columns([
    ...(choices.length > 0 ? seen : [meter]),
    [`ohmward job skip ${file} <reason>`, "the test is not possible"],
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
            `ohmward job add ${file} --probability-factor "${goOn?.of ?? "<cause>"}=${REPAIRED_IN_VAIN.factor}: ${REPAIRED_IN_VAIN.origin}"`,
            "continue testing",
          ],
        ]
      : []),
    [
      `ohmward job close ${file} --outcome repaired`,
      isProven ? "" : "verifications that are not done are recorded too",
    ],
  ]);
}

/** Tests in one line each. */
export function checkLines(checks: readonly CheckLine[]): readonly string[] {
  return columns(
    checks.map(({ code, title, condition, unplugged, minutes, bits, isDone }) => [
      code,
      title,
      [condition, ...unplugged.map(disconnectedWords)].join(", "),
      formatMinutes(minutes),
      bits === undefined ? "" : `${bits.toFixed(2)} bit`,
      isDone ? "done" : "",
    ]),
  );
}
