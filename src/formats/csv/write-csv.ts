import { encodeUtf8 } from "../text/encode-utf8.ts";
import { guardCell } from "./guard-cell.ts";

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
