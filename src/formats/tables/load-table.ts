import { err, ok, type Result } from "../../base/index.ts";
import { parseCsv } from "../csv/parse-csv.ts";
import type { Delimiter } from "../csv/find-delimiter.ts";
import type { ReadProgress } from "../format-reader.ts";
import { importProblem, type ImportProblem } from "../import-problem.ts";
import { decodeText } from "../text/decode-text.ts";
import { openWorkbook, type WorkbookSheet } from "../xlsx/open-workbook.ts";
import { readSheet } from "../xlsx/read-sheet.ts";
import { findHeadings, type Headings } from "./find-headings.ts";
import type { TableOptions, TableReadOptions } from "./table-options.ts";
import type { Table } from "./table.ts";

/** A table that is ready to be read row by row. */
export interface LoadedTable {
  readonly table: Table;
  readonly headings: Headings;
  readonly warnings: readonly ImportProblem[];
  readonly encoding?: string;
  readonly delimiter?: Delimiter;
  /** Names of the visible sheets of a workbook. */
  readonly sheets?: readonly string[];
}

/** Loading a table, in steps. */
export type TableLoading = Generator<ReadProgress, Result<LoadedTable, readonly ImportProblem[]>, void>;

/** Most bytes of a table file. */
const MOST_BYTES = 64 * 1024 * 1024;
const SIGNS: readonly Delimiter[] = [",", ";", "\t"];
const NAMES: Readonly<Record<Delimiter, string>> = { ",": "commas", ";": "semicolons", "\t": "tabs" };

/** Loads a CSV file: decodes it, cuts it into cells and finds its headings. */
export function* loadCsv(bytes: Uint8Array, options: TableReadOptions): TableLoading {
  const fault = sizeFault(bytes, options);
  if (fault) return err([fault]);
  const decoded = decodeText(bytes);
  if (!decoded.ok) return err([decoded.error]);
  const { text, encoding } = decoded.value;
  yield { share: 0.1, doing: "Cutting the text into cells" };
  const { table: said = {} } = options;
  const parsed = parseCsv(text, said.delimiter === undefined ? {} : { delimiter: said.delimiter });
  if (!parsed.ok) return parsed;
  const { delimiter } = parsed.value;
  if (parsed.value.rows.length === 0) return err([importProblem("file-empty", {}, { bytes: bytes.length })]);
  const mixed = findMixedDelimiters(parsed.value, delimiter);
  if (mixed.length > 0) return err(mixed);
  const headings = findHeadings(parsed.value, said);
  if (!headings.ok) return headings;
  const warnings = encoding === "Windows-1252" ? [importProblem("encoding-assumed", {}, { encoding })] : [];
  return ok({ table: { rows: parsed.value.rows }, headings: headings.value, warnings, encoding, delimiter });
}

/** Loads one sheet of an XLSX workbook: the one asked for, or the first visible one with headings that are understood. */
export function* loadXlsx(bytes: Uint8Array, options: TableReadOptions): TableLoading {
  const fault = sizeFault(bytes, options);
  if (fault) return err([fault]);
  const workbook = openWorkbook(bytes);
  if (!workbook.ok) return workbook;
  const { table: said = {} } = options;
  const visible = workbook.value.sheets.filter((sheet) => !sheet.isHidden);
  const sheets = visible.map((sheet) => sheet.name);
  const chosen = chooseSheets(workbook.value.sheets, said);
  if (chosen.length === 0) {
    const facts = { sheet: (said.sheet ?? "").slice(0, 80), sheets: sheets.join(", ") };
    return err([importProblem("sheet-unknown", {}, facts)]);
  }
  let first: readonly ImportProblem[] | undefined;
  for (const sheet of chosen) {
    const read = yield* readSheet(workbook.value, sheet);
    if (!read.ok) return read;
    const headings = findHeadings(read.value.table, said);
    if (headings.ok) return ok({ ...read.value, headings: headings.value, sheets });
    first ??=
      read.value.table.rows.length === 0
        ? [importProblem("file-empty", { sheet: sheet.name }, { bytes: bytes.length })]
        : headings.error;
  }
  return err(first ?? []);
}

function sizeFault(bytes: Uint8Array, options: TableReadOptions): ImportProblem | undefined {
  const limit = options.mostBytes ?? MOST_BYTES;
  if (bytes.length === 0) return importProblem("file-empty", {}, { bytes: 0 });
  return bytes.length > limit ? importProblem("file-too-large", {}, { bytes: bytes.length, limit }) : undefined;
}

function chooseSheets(sheets: readonly WorkbookSheet[], said: TableOptions): readonly WorkbookSheet[] {
  if (said.sheet !== undefined) return sheets.filter((sheet) => sheet.name === said.sheet);
  const visible = sheets.filter((sheet) => !sheet.isHidden);
  return visible.length > 0 ? visible : sheets;
}

/** Rows that fall into fewer cells than the rest of the table, and into about as many by another sign. */
function findMixedDelimiters(table: Table, used: Delimiter): readonly ImportProblem[] {
  const width = Math.max(0, ...table.rows.slice(0, 200).map((row) => row.cells.length));
  if (width < 3) return [];
  const problems: ImportProblem[] = [];
  for (const { row, line, cells } of table.rows) {
    const filled = cells.filter((cell) => cell.trim() !== "").length;
    const other =
      filled * 2 <= width
        ? SIGNS.find((sign) => sign !== used && cells.join(used).split(sign).length >= width - 1)
        : undefined;
    if (other === undefined) continue;
    const place = { row, ...(line === undefined ? {} : { line }) };
    problems.push(importProblem("delimiter-mixed", place, { used: NAMES[used], other: NAMES[other] }));
    if (problems.length >= 20) break;
  }
  return problems;
}
