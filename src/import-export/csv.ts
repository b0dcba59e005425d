// eslint-disable-next-line @typescript-eslint/triple-slash-reference -- a package without declarations can be declared in no other way
/// <reference path="./papaparse.d.ts" />
import { importProblem, type ImportProblem } from "./import-problem.ts";
import papa from "papaparse";
import { defined, err, ok, type Result } from "../base/index.ts";
import { TABLE_LIMITS, type Table, type TableLimits, type TableRow } from "./tables/table.ts";
import { encodeUtf8 } from "./text.ts";

/** What may stand between the cells of a CSV text. */
export type Delimiter = "," | ";" | "\t";

const CANDIDATES: readonly Delimiter[] = [";", "\t", ","];
const MOST_LINES = 60;
const MOST_CHARACTERS = 64 * 1024;

/**
 * Finds the delimiter of a CSV text from its first lines: the one that gives the most lines the same number of cells, more cells
 * counting for more; undefined if no line has two cells by any of them. Quoted cells are stepped over.
 */
export function findDelimiter(text: string): Delimiter | undefined {
  const lines = firstLines(text);
  let best: { delimiter: Delimiter; score: number } | undefined;
  for (const delimiter of CANDIDATES) {
    const counts = new Map<number, number>();
    for (const line of lines) {
      const cells = line.split(delimiter).length;
      if (cells > 1) counts.set(cells, (counts.get(cells) ?? 0) + 1);
    }
    for (const [cells, times] of counts) {
      const score = times * Math.log2(cells);
      if (!best || score > best.score) best = { delimiter, score };
    }
  }
  return best?.delimiter;
}

/** The first lines without what is quoted. */
function firstLines(text: string): readonly string[] {
  const lines: string[] = [];
  let line = "";
  let isQuoted = false;
  for (const character of text.slice(0, MOST_CHARACTERS)) {
    if (character === '"') isQuoted = !isQuoted;
    else if (isQuoted) continue;
    else if (character === "\n" || character === "\r") {
      if (line.trim() !== "") lines.push(line);
      if (lines.length >= MOST_LINES) return lines;
      line = "";
    } else line += character;
  }
  if (line.trim() !== "") lines.push(line);
  return lines;
}

/** A text that a spreadsheet would take for a formula, or that stands for one behind apostrophes. */
const LOOKS_LIKE_FORMULA = /^'*[=+\-@\t\r]/u;

/**
 * Guards a text against being run as a formula when the file is opened in a spreadsheet: an apostrophe is put before it.
 * `unguardCell` gives back exactly the same text.
 *
 * @param text The text of a cell.
 * @example
 * ```ts
 * import { guardCell, unguardCell } from "ohmward/import-export";
 * expect(guardCell("=1+1")).toBe("'=1+1");
 * expect(unguardCell(guardCell("'=1+1"))).toBe("'=1+1");
 * ```
 * Source: the advice on CSV injection of the Open Worldwide Application Security Project.
 */
export function guardCell(text: string): string {
  return LOOKS_LIKE_FORMULA.test(text) ? `'${text}` : text;
}

/** Takes off the guard of `guardCell`; any other text stays as it is. */
export function unguardCell(text: string): string {
  return text.startsWith("'") && LOOKS_LIKE_FORMULA.test(text) ? text.slice(1) : text;
}

/** Most faults that are listed; one wrong quote may spoil the rest of a file. */
const MOST_FAULTS = 20;

/**
 * Checks the quotes of a CSV text in one pass: a quoted cell has to end, and nothing but blanks may stand between its end and the
 * next delimiter. A quote inside an unquoted cell is an ordinary character, as in `5" pipe`. Line ends outside of quoted cells
 * become a line feed.
 *
 * Source: RFC 4180, with the leniencies named.
 */
function scanQuotes(text: string, delimiter: string): Result<string, readonly ImportProblem[]> {
  const problems: ImportProblem[] = [];
  const pieces: string[] = [];
  let line = 1;
  let copied = 0;
  let at = 0;
  let isCellStart = true;
  while (at < text.length) {
    const character = text[at];
    if (character === '"' && isCellStart) {
      const end = endOfQuoted(text, at);
      if (end === undefined) {
        problems.push(importProblem("quote-open", { line }, { line }));
        break;
      }
      const openedIn = line;
      line += countLines(text, at, end);
      at = end;
      while (text[at] === " " || (text[at] === "\t" && delimiter !== "\t")) at += 1;
      const next = text[at];
      if (next !== undefined && next !== delimiter && next !== "\n" && next !== "\r") {
        if (problems.length < MOST_FAULTS) problems.push(importProblem("quote-stray", { line }, { line: openedIn }));
      }
      isCellStart = false;
      continue;
    }
    isCellStart = character === delimiter || character === "\n" || character === "\r";
    if (character === "\r") {
      pieces.push(text.slice(copied, at), "\n");
      if (text[at + 1] === "\n") at += 1;
      copied = at + 1;
      line += 1;
    } else if (character === "\n") line += 1;
    at += 1;
  }
  if (problems.length > 0) return err(problems);
  pieces.push(text.slice(copied));
  return ok(pieces.join(""));
}

/** Position after the closing quote of a cell that opens at `start`. */
function endOfQuoted(text: string, start: number): number | undefined {
  let at = start + 1;
  for (;;) {
    const quote = text.indexOf('"', at);
    if (quote < 0) return undefined;
    if (text[quote + 1] !== '"') return quote + 1;
    at = quote + 2;
  }
}

/** Line ends between two positions: a carriage return with a line feed counts once. */
function countLines(text: string, start: number, end: number): number {
  let lines = 0;
  for (let at = start; at < end; at++) {
    const unit = text.charCodeAt(at);
    if (unit === 10 || (unit === 13 && text.charCodeAt(at + 1) !== 10)) lines += 1;
  }
  return lines;
}

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
  if (!scanned.ok) return scanned;
  const rows: TableRow[] = [];
  const problems: ImportProblem[] = [];
  let line = 1;
  let before = 0;
  let number = 0;
  papa.parse(scanned.value, {
    delimiter,
    newline: "\n",
    quoteChar: '"',
    step: ({ data, meta }, handle) => {
      number += 1;
      const startedIn = line;
      line += countLines(scanned.value, before, meta.cursor);
      before = meta.cursor;
      if (data.every((cell) => cell.trim() === "")) return;
      const row = { row: number, line: startedIn, cells: data };
      const fault = judgeRow(row, rows.length, limits);
      if (fault) {
        problems.push(fault);
        handle.abort();
      } else rows.push({ ...row, cells: data.map(unguardCell) });
    },
  });
  return problems.length > 0 ? err(problems) : ok({ delimiter, rows });
}

function judgeRow({ row, line, cells }: TableRow, kept: number, limits: TableLimits): ImportProblem | undefined {
  const place = { row, ...defined({ line }) };
  if (cells.length > limits.mostColumns)
    return importProblem("too-many-columns", place, { columns: cells.length, limit: limits.mostColumns });
  if (kept >= limits.mostRows) return importProblem("too-many-rows", place, { limit: limits.mostRows });
  const longest = cells.find((cell) => cell.length > limits.longestCell);
  if (longest === undefined) return undefined;
  const column = String(cells.indexOf(longest) + 1);
  return importProblem("cell-too-long", { ...place, column }, { length: longest.length, limit: limits.longestCell });
}

/** A cell to be written: a text, a number, or nothing. */
export type CellValue = string | number | undefined;

/**
 * Writes rows as CSV: comma, quotes where needed, CR LF after each row. Texts that look like formulas are guarded; numbers are
 * written as they are, with a decimal point.
 *
 * @param rows The rows, the heading row first.
 *
 * Source: RFC 4180.
 */
export function writeCsv(rows: readonly (readonly CellValue[])[]): string {
  return rows.map((row) => `${row.map(cellText).join(",")}\r\n`).join("");
}

/** The bytes of a CSV text as spreadsheets expect them: UTF-8 with a byte order mark. */
export function csvBytes(text: string): Uint8Array {
  return encodeUtf8(`\uFEFF${text}`);
}

function cellText(value: CellValue): string {
  if (value === undefined) return "";
  if (typeof value === "number") return String(value);
  const text = guardCell(value);
  return /[",\r\n;\t]|^\s|\s$/u.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}
