import { columns } from "../../text/columns.ts";
import { bullets, section } from "../../text/frame.ts";
import type { JobChecksAnswer, JobRefusal, JobReportAnswer, JobShowAnswer, JobWeightsAnswer } from "../job-answers.ts";
import { jobLine, suspectRows } from "./job-words.ts";
import { checkLines } from "./write-next.ts";

/** Every permitted check, as lines. */
export function writeChecks(answer: JobChecksAnswer): readonly string[] {
  const { checks, cautions } = answer;
  return [
    `${answer.count} permitted checks, those first that tell most for their time`,
    jobLine(answer),
    "",
    ...checkLines(checks),
    ...section("Cautions", bullets(cautions)),
  ];
}

/** A job as it stands, as lines. */
export function writeShow(answer: JobShowAnswer): readonly string[] {
  const { complaint, suspects, log, weights, job, adapters, assumptions, cautions } = answer;
  const { state, unplugged } = job.stands;
  const rows = log.map(({ event, name, text, verdict, isUndone, isCorrected, counts }) => [
    event,
    name,
    text,
    [
      verdict === undefined || verdict === "inconclusive" ? "" : verdict.replaceAll("-", " "),
      isCorrected ? "corrected" : "",
      counts ? "" : "does not count: no such check in this data",
      isUndone ? "taken back" : "",
    ]
      .filter((word) => word !== "")
      .join(", "),
  ]);
  return [
    `Job ${job.id}: ${job.stage}`,
    jobLine(answer),
    ...section("Complaint", bullets(complaint)),
    ...section("Set up", [
      `  state ${state}${unplugged.length > 0 ? `, unplugged: ${unplugged.join(", ")}` : ", everything plugged in"}`,
      ...(adapters ? [`  adapters at hand: ${adapters.join(", ") || "none"}`] : []),
    ]),
    ...section("Suspects", suspectRows(suspects)),
    ...section("Changed weights", columns(weights.map(weightRow))),
    ...section("Log", columns(rows)),
    ...section("Taken for granted", bullets(assumptions)),
    ...section("Cautions", bullets(cautions)),
  ];
}

function weightRow({ event, of, factor, origin, suspects }: JobShowAnswer["weights"][number]): readonly string[] {
  const held = factor === 0 ? "off the list" : suspects === 1 ? "1 fault" : `${suspects} faults`;
  return [event, of, `times ${factor}`, held, origin];
}

/** What the faults weigh beforehand, as lines. */
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
    `${weights.length} faults that are looked for, with their weights before the first reading`,
    jobLine(answer),
    `Starting weights: ${priorOrigin}. Something else: ${Math.round(somethingElse * 100)} % of the whole.`,
    "",
    ...columns([["weight", "fault", "name", "repair", "made of"], ...rows]),
    ...section("Cautions", bullets(answer.cautions)),
  ];
}

const BLANK = "______________________________________________";

/** The write-up of a job, as lines. */
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

const JUDGE = "right [ ]  wrong [ ]";

function sheetRow(row: JobReportAnswer["sheet"]["rows"][number]): readonly string[] {
  const { number, point, condition, expected, measured, verdict } = row;
  const judged = verdict !== "" ? verdict : measured === "" ? JUDGE : "no verdict";
  return [
    `${String(number).padStart(2)}  ${point}${condition === "" ? "" : `; ${condition}`}`,
    `    expected ${expected || BLANK.slice(0, 14)}  measured ${measured || BLANK.slice(0, 14)}  ${judged}`,
  ];
}

/** The sheet of a job for a clipboard, as lines. */
export function writeSheet({ sheet }: JobReportAnswer): readonly string[] {
  const { title, machine, complaint, cautions, rows, blanks } = sheet;
  const lines = rows.flatMap((row) => (row.point === "" ? blankRow(row.number) : sheetRow(row)));
  return [
    title,
    machine,
    ...section("COMPLAINT", bullets(complaint)),
    ...section("CAUTIONS", bullets(cautions)),
    ...section("CHECKS", lines),
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
