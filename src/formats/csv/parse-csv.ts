// eslint-disable-next-line @typescript-eslint/triple-slash-reference -- a package without declarations can be declared in no other way
/// <reference path="./papaparse.d.ts" />
import papa from "papaparse";
import { err, ok, type Result } from "../../base/index.ts";
import { importProblem, type ImportProblem } from "../import-problem.ts";
import { TABLE_LIMITS, type Table, type TableLimits, type TableRow } from "../tables/table.ts";
import { findDelimiter, type Delimiter } from "./find-delimiter.ts";
import { countLines, scanQuotes } from "./scan-quotes.ts";
import { unguardCell } from "./guard-cell.ts";

/** How a CSV text is to be cut into cells. */
export interface CsvOptions {
  /** Absent means that it is found from the first lines. */
  readonly delimiter?: Delimiter;
  readonly limits?: TableLimits;
}

/** A table with the delimiter it was cut by. */
export interface CsvTable extends Table {
  readonly delimiter: Delimiter;
}

/**
 * Cuts a CSV text into cells. Rows without any text are left out, cells guarded against being taken for formulas are given back as they
 * were. Nothing is trimmed.
 *
 * @param text The decoded text.
 * @param options Delimiter and caps.
 * @returns The table, or what is wrong with the text, with lines.
 *
 * Source: RFC 4180; semicolon, tab and bare line ends besides.
 */
export function parseCsv(text: string, options: CsvOptions = {}): Result<CsvTable, readonly ImportProblem[]> {
  const limits = options.limits ?? TABLE_LIMITS;
  const nulls = text.split("\0").length - 1;
  if (nulls > 0) return err([importProblem("text-with-nul", {}, { count: nulls })]);
  const delimiter = options.delimiter ?? findDelimiter(text) ?? ",";
  const scanned = scanQuotes(text, delimiter);
  if (!scanned.ok) return err(scanned.problems);
  const rows: TableRow[] = [];
  const problems: ImportProblem[] = [];
  let line = 1;
  let before = 0;
  let number = 0;
  papa.parse(scanned.text, {
    delimiter,
    newline: "\n",
    quoteChar: '"',
    step: ({ data, meta }, handle) => {
      number += 1;
      const startedIn = line;
      line += countLines(scanned.text, before, meta.cursor);
      before = meta.cursor;
      if (data.every((cell) => cell.trim() === "")) return;
      const fault = judgeRow(data, { limits, row: number, line: startedIn, kept: rows.length });
      if (fault) {
        problems.push(fault);
        handle.abort();
      } else rows.push({ row: number, line: startedIn, cells: data.map(unguardCell) });
    },
  });
  return problems.length > 0 ? err(problems) : ok({ delimiter, rows });
}

interface RowContext {
  readonly limits: TableLimits;
  readonly row: number;
  readonly line: number;
  readonly kept: number;
}

function judgeRow(cells: readonly string[], { limits, row, line, kept }: RowContext): ImportProblem | undefined {
  if (cells.length > limits.mostColumns)
    return importProblem("too-many-columns", { row, line }, { columns: cells.length, limit: limits.mostColumns });
  if (kept >= limits.mostRows) return importProblem("too-many-rows", { row, line }, { limit: limits.mostRows });
  const longest = cells.find((cell) => cell.length > limits.longestCell);
  if (longest === undefined) return undefined;
  const column = String(cells.indexOf(longest) + 1);
  return importProblem("cell-too-long", { row, line, column }, { length: longest.length, limit: limits.longestCell });
}
