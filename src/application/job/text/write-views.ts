import { columns } from "../../text/columns.ts";
import { bullets, section } from "../../text/frame.ts";
import type { JobChecksAnswer, JobRefusal, JobReportAnswer, JobShowAnswer, JobWeightsAnswer } from "../job-answers.ts";
import { jobLine, suspectRows, verdictWords } from "./job-words.ts";
import { checkLines } from "./write-next.ts";

/** Every permitted test, as lines. */
export function writeChecks(answer: JobChecksAnswer): readonly string[] {
  const { checks, cautions } = answer;
  return [
    `${answer.count} permitted tests, those first that separate most causes in their time`,
    jobLine(answer),
    "",
    ...checkLines(checks),
    ...section("Cautions", bullets(cautions)),
  ];
}

const STAGE_NAMES: Readonly<Record<JobShowAnswer["job"]["stage"], string>> = {
  checking: "testing",
  proving: "repair verification",
  closed: "closed",
};

/** A job as it stands, as lines. */
export function writeShow(answer: JobShowAnswer): readonly string[] {
  const { complaint, suspects, log, weights, job, adapters, assumptions, cautions } = answer;
  const { state, unplugged } = job.stands;
  const rows = log.map(({ event, name, text, verdict, isUndone, isCorrected, counts }) => [
    event,
    name,
    text,
    [
      verdict === undefined || verdict === "inconclusive" ? "" : verdictWords(verdict),
      isCorrected ? "corrected" : "",
      counts ? "" : "does not count: this test is not in this data",
      isUndone ? "undone" : "",
    ]
      .filter((word) => word !== "")
      .join(", "),
  ]);
  return [
    `Job ${job.id}: ${STAGE_NAMES[job.stage]}`,
    jobLine(answer),
    ...section("Complaint", bullets(complaint)),
    ...section("State of the machine", [
      `  state ${state}${unplugged.length > 0 ? `, disconnected: ${unplugged.join(", ")}` : ", everything connected"}`,
      ...(adapters ? [`  adapters available: ${adapters.join(", ") || "none"}`] : []),
    ]),
    ...section("Possible causes, with their probability", suspectRows(suspects)),
    ...section("Your changes to the starting probability", columns(weights.map(weightRow))),
    ...section("Job log", columns(rows)),
    ...section("Assumptions", bullets(assumptions)),
    ...section("Cautions", bullets(cautions)),
  ];
}

function weightRow({ event, of, factor, origin, suspects }: JobShowAnswer["weights"][number]): readonly string[] {
  const held = factor === 0 ? "not a possible cause" : suspects === 1 ? "1 fault" : `${suspects} faults`;
  return [event, of, `factor ${factor}`, held, origin];
}

/** The starting probabilities of the faults, as lines. */
export function writeWeights(answer: JobWeightsAnswer): readonly string[] {
  const { weights, priorOrigin, somethingElse } = answer;
  const rows = weights.map(({ weight, label, id, repair, factors }) => [
    weight.toPrecision(2),
    label,
    id,
    repair,
    factors.map(({ factor, why }) => `${Number(factor.toPrecision(3))} ${why}`).join(" x "),
  ]);
  return [
    `${weights.length} possible faults, with their starting probability as a relative value`,
    jobLine(answer),
    `Source: ${priorOrigin}. Something else: ${Math.round(somethingElse * 100)} %.`,
    "",
    ...columns([["value", "fault", "name", "repair", "product of"], ...rows]),
    ...section("Cautions", bullets(answer.cautions)),
  ];
}

const BLANK = "______________________________________________";

/** The repair report of a job, as lines. */
export function writeReportText({ text, cautions }: JobReportAnswer): readonly string[] {
  return [...text.trimEnd().split("\n"), ...section("CAUTIONS", bullets(cautions))];
}

/** Two lines a row, so that the sheet fits on one side of paper. */
function blankRow(number: number): readonly string[] {
  const at = String(number).padStart(2);
  return [
    `${at}  point ${"_".repeat(34)}  condition ${"_".repeat(24)}`,
    `    expected ${BLANK.slice(0, 14)}  measured ${BLANK.slice(0, 14)}  ${JUDGE}`,
  ];
}

const JUDGE = "pass [ ]  fail [ ]";

function sheetRow(row: JobReportAnswer["sheet"]["rows"][number]): readonly string[] {
  const { number, point, condition, expected, measured, verdict } = row;
  const judged = verdict !== "" ? verdict : measured === "" ? JUDGE : verdictWords("inconclusive");
  return [
    `${String(number).padStart(2)}  ${point}${condition === "" ? "" : `; ${condition}`}`,
    `    expected ${expected || BLANK.slice(0, 14)}  measured ${measured || BLANK.slice(0, 14)}  ${judged}`,
  ];
}

/** The form of a job for a clipboard, as lines. */
export function writeSheet({ sheet }: JobReportAnswer): readonly string[] {
  const { title, machine, complaint, cautions, rows, blanks } = sheet;
  const lines = rows.flatMap((row) => (row.point === "" ? blankRow(row.number) : sheetRow(row)));
  return [
    title,
    machine,
    ...section("COMPLAINT", bullets(complaint)),
    ...section("CAUTIONS", bullets(cautions)),
    ...section("TESTS", lines),
    "",
    ...columns(
      blanks.map(({ label, text }) => [label, text || BLANK]),
      0,
    ),
  ];
}

/** Why a job was not opened or a step not taken, as lines. */
export function writeRefusal({ text, problems }: JobRefusal): readonly string[] {
  return [text, ...problems.flatMap(({ at, message, hint }) => [`${at}: ${message}`, `  ${hint}`])];
}
