import { replayEvents } from "./replay-events.ts";
import { causeWords, conditionWords, describeEntered } from "./job-text.ts";
import { STATUS_NAMES, VERDICT_NAMES } from "./job-words.ts";
import type { JobRecord } from "./schema.ts";

/** A line to be written on by hand. */
interface Blank {
  readonly label: string;
}

/** One line of the table of tests: filled in, or a blank to write into. */
export interface SheetRow {
  readonly number: number;
  readonly point: string;
  readonly condition: string;
  readonly expected: string;
  /** Empty in a blank row. */
  readonly measured: string;
  readonly verdict: string;
}

/** A job as a sheet for a clipboard: what is known printed, the rest as blanks. */
interface JobSheet {
  readonly title: string;
  readonly machine: string;
  readonly complaint: readonly string[];
  readonly cautions: readonly string[];
  readonly rows: readonly SheetRow[];
  readonly cause: string;
  readonly repairs: readonly string[];
  readonly blanks: readonly Blank[];
}

/** Rows that fit on one side of A4 or letter paper beside the rest. */
const ROWS = 14;

/**
 * The sheet of a job, with blanks for what is still to be done.
 *
 * @param next Tests that are proposed and not yet done; they are printed with room for the reading.
 * @param cautions Warnings to print above the table.
 * @returns At least 14 rows, so that there is room to write; more if more tests were done.
 */
export function jobSheet(
  record: JobRecord,
  next: readonly Omit<SheetRow, "number">[] = [],
  cautions: readonly string[] = [],
): JobSheet {
  const facts = replayEvents(record);
  const done = facts.readings.map(({ check, given, verdict }) => ({
    point: check.point,
    condition: [check.condition, ...check.setup].join(", "),
    expected: check.expected,
    measured: describeEntered(given),
    verdict: verdict === "inconclusive" ? "" : VERDICT_NAMES[verdict],
  }));
  const empty = { point: "", condition: "", expected: "", measured: "", verdict: "" };
  const rows = [...done, ...next];
  while (rows.length < ROWS) rows.push(empty);
  const codes = [...facts.codes].map(([code, status]) => `${code} ${STATUS_NAMES[status]}`);
  return {
    title: `Job ${record.id}`,
    machine: `${record.machine.machine}, build ${record.machine.build.label}`,
    complaint: [facts.complaint.words, ...conditionWords(facts), ...codes].filter((line) => line !== ""),
    cautions,
    rows: rows.map((row, index) => ({ number: index + 1, ...row })),
    cause: facts.cause ? causeWords(facts.cause) : "",
    repairs: facts.repairs.map(({ text }) => text),
    blanks: ["Cause", "Correction", "Parts", "Repair verification", "Not checked", "Time", "Name", "Date"].map(
      (label) => ({
        label,
      }),
    ),
  };
}
