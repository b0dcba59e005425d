import { importProblem, type ImportProblem } from "../import-problem.ts";

/** Most faults that are listed; one wrong quote may spoil the rest of a file. */
const MOST_FAULTS = 20;

/** A text whose quotes are in order, with one sort of line end outside of quoted cells; or what is wrong with it. */
export type QuoteScan =
  { readonly ok: true; readonly text: string } | { readonly ok: false; readonly problems: readonly ImportProblem[] };

/**
 * Checks the quotes of a CSV text in one pass: a quoted cell has to end, and nothing but blanks may stand between its end and the
 * next delimiter. A quote inside an unquoted cell is an ordinary character, as in `5" pipe`. Line ends outside of quoted cells
 * become a line feed.
 *
 * @param text The text.
 * @param delimiter The character between cells.
 *
 * Source: RFC 4180, with the leniencies named.
 */
export function scanQuotes(text: string, delimiter: string): QuoteScan {
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
  if (problems.length > 0) return { ok: false, problems };
  pieces.push(text.slice(copied));
  return { ok: true, text: pieces.join("") };
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
export function countLines(text: string, start: number, end: number): number {
  let lines = 0;
  for (let at = start; at < end; at++) {
    const unit = text.charCodeAt(at);
    if (unit === 10 || (unit === 13 && text.charCodeAt(at + 1) !== 10)) lines += 1;
  }
  return lines;
}
