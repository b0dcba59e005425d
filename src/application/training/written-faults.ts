import { err, ok, type Result } from "../../base/index.ts";
import { decodeText, parseCsv, type CsvTable } from "../../import-export/index.ts";
import type { TrainingTask } from "../../job-records/index.ts";
import type { FileProblem } from "../import/file-problem.ts";
import { fileProblem } from "../import/file-problem.ts";

/** A fault as a trainer wrote it, with the place where it stands. */
export interface WrittenFault {
  readonly task: TrainingTask;
  readonly at: FileProblem["at"];
}

/** A table of faults as read: the rows that can be tasks, and everything that is wrong with the others or with the table. */
export interface WrittenFaults {
  readonly faults: readonly WrittenFault[];
  readonly problems: readonly FileProblem[];
}

/** What a row means that leaves a cell empty. */
export interface FaultDefaults {
  readonly build: string;
  readonly level: 1 | 2 | 3;
}

/** The columns of a table of faults, by their headings in small letters. */
export const FAULT_COLUMNS = ["Title", "Fault", "Build", "Level", "Comes and goes", "Complaint"] as const;

type Column = (typeof FAULT_COLUMNS)[number];
type Cells = ReadonlyMap<Column, string>;

const YES: ReadonlySet<string> = new Set(["yes", "y", "x", "true", "1"]);
const NO: ReadonlySet<string> = new Set(["", "no", "n", "-", "false", "0"]);

/**
 * Reads a table of faults that a trainer wrote: CSV with one fault a row, its text form under `Fault`; the other columns may be missing
 * and their cells empty.
 *
 * @param file Name and bytes of the file.
 * @param defaults Build and level of rows that name none.
 * @returns The faults as tasks, in order, beside everything that is wrong. Whether the machine can have them is not looked at.
 */
export function readWrittenFaults(
  file: { readonly name: string; readonly bytes: Uint8Array },
  defaults: FaultDefaults,
): WrittenFaults {
  const none = (problems: readonly FileProblem[]): WrittenFaults => ({ faults: [], problems });
  const text = decodeText(file.bytes);
  if (!text.ok) return none([inFile(file.name, fileProblem(text.error))]);
  const table = parseCsv(text.value.text);
  if (!table.ok) return none(table.error.map((each) => inFile(file.name, fileProblem(each))));
  const columns = columnsOf(file.name, table.value);
  if (!columns.ok) return none(columns.error);
  const read = table.value.rows.slice(1).map(({ row, cells }) => {
    const named: Cells = new Map(columns.value.map((column, at) => [column, (cells[at] ?? "").trim()]));
    return readRow(named, { file: file.name, row }, defaults);
  });
  return {
    faults: read.flatMap((each) => (each.ok ? [each.value] : [])),
    problems: read.flatMap((each) => (each.ok ? [] : each.error)),
  };
}

function inFile(name: string, problem: FileProblem): FileProblem {
  return { ...problem, at: { ...problem.at, file: name } };
}

function columnsOf(name: string, { rows }: CsvTable): Result<readonly Column[], readonly FileProblem[]> {
  const headings = rows[0]?.cells.map((cell) => cell.trim()) ?? [];
  const known = headings.map((heading) => FAULT_COLUMNS.find((each) => each.toLowerCase() === heading.toLowerCase()));
  const at = { file: name, row: rows[0]?.row ?? 1 };
  const hint = `The headings are ${FAULT_COLUMNS.join(", ")}; only Fault is required`;
  const wrong = (code: string, message: string): FileProblem => ({ severity: "error", code, at, message, hint });
  const problems = headings.flatMap((heading, place) => {
    if (known[place] === undefined)
      return [wrong("unknown-heading", `"${heading}" is not a column of a table of faults`)];
    return known.indexOf(known[place]) < place
      ? [wrong("heading-twice", `The column "${heading}" is there twice`)]
      : [];
  });
  if (!known.includes("Fault")) problems.push(wrong("no-fault-column", "The column Fault is missing"));
  if (rows.length === 1) problems.push(wrong("no-rows", "The table has no fault below the headings"));
  return problems.length > 0 ? err(problems) : ok(known.flatMap((column) => column ?? []));
}

function readRow(
  cells: Cells,
  at: { readonly file: string; readonly row: number },
  defaults: FaultDefaults,
): Result<WrittenFault, readonly FileProblem[]> {
  const cell = (column: Column): string => cells.get(column) ?? "";
  const problems: FileProblem[] = [];
  const wrong = (column: Column, message: string, hint: string): void => {
    problems.push({ severity: "error", code: "wrong-cell", at: { ...at, column }, message, hint });
  };
  const fault = cell("Fault");
  if (fault === "")
    wrong("Fault", "The row has no fault", "Write a fault, such as open:W78 or high-resistance:XE1:1=0.25");
  const level =
    cell("Level") === "" ? defaults.level : ([1, 2, 3] as const).find((each) => String(each) === cell("Level"));
  if (level === undefined) wrong("Level", `"${cell("Level")}" is not a level`, "Write 1, 2 or 3");
  const goes = cell("Comes and goes").toLowerCase();
  if (!YES.has(goes) && !NO.has(goes)) wrong("Comes and goes", `"${goes}" is neither yes nor no`, "Write yes or no");
  if (problems.length > 0 || level === undefined) return err(problems);
  const words = cell("Complaint");
  const task: TrainingTask = {
    kind: "written",
    // The fault itself would give the answer away.
    title: cell("Title") === "" ? `Fault ${at.row - 1}` : cell("Title").slice(0, 600),
    build: cell("Build") === "" ? defaults.build : cell("Build"),
    fault,
    ...(YES.has(goes) ? { comesAndGoes: true } : {}),
    ...(words === "" ? {} : { words: words.slice(0, 2000) }),
    level,
  };
  return ok({ task, at });
}
