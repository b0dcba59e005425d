import { err, ok, readQuantity, type QuantityWay, type Result } from "../../base/index.ts";
import type { CellValue } from "../csv/write-csv.ts";
import type { ColumnSort } from "./set-tables.ts";

/** Texts that would be taken for "nothing here" or for the sign that keeps them apart from it. */
const NEEDS_MARK = /^'*$/u;
const PLAIN_WORD = /^[^\s"[\]']+$/u;

/** The cell for a value of a document; an absent value gives an empty cell, an empty text an apostrophe. */
export function toCell(value: unknown, sort: ColumnSort): CellValue {
  if (value === undefined) return undefined;
  switch (sort) {
    case "text":
      if (typeof value !== "string") return undefined;
      return NEEDS_MARK.test(value) ? `'${value}` : value;
    case "number":
      return typeof value === "number" ? value : undefined;
    case "flag":
      return value === true ? "yes" : "no";
    case "list": {
      const words: readonly unknown[] = Array.isArray(value) ? value : [];
      const isPlain = words.length > 0 && words.every((word) => typeof word === "string" && PLAIN_WORD.test(word));
      return isPlain ? words.join(" ") : JSON.stringify(value);
    }
    case "json":
      return JSON.stringify(value);
  }
}

/**
 * The value that a cell stands for.
 *
 * @param text The cell; empty means that there is no value.
 * @param sort What the column holds.
 * @param isDecimalComma Whether the program that saved the table writes numbers with a comma.
 * @returns The value, undefined for an empty cell, or what was wanted in words.
 */
export function fromCell(text: string, sort: ColumnSort, isDecimalComma: boolean): Result<unknown, string> {
  if (text === "") return ok(undefined);
  switch (sort) {
    case "text":
      return ok(NEEDS_MARK.test(text) ? text.slice(1) : text);
    case "number": {
      // The sign of the file is certain where the cell has it; a cell with the other one alone speaks for itself.
      const [sign, other] = isDecimalComma ? (["comma", "."] as const) : (["point", ","] as const);
      const read = readQuantity(text, { units: [], ...(!text.includes(other) && { decimal: sign }) });
      if (read.kind === "value") return ok(read.value);
      return err(read.kind === "question" ? `a number that is ${listOf(read.ways)}, not both` : "a number");
    }
    case "flag":
      if (/^(?:yes|true)$/iu.test(text)) return ok(true);
      return /^(?:no|false)$/iu.test(text) ? ok(false) : err("yes or no");
    case "list":
      // A quote begins a text that stands where a list may: `"any"`.
      return /^["[]/u.test(text) ? parseJson(text) : ok(text.split(/\s+/u).filter((word) => word !== ""));
    case "json":
      return parseJson(text);
  }
}

function listOf(ways: readonly QuantityWay[]): string {
  return ways.map(({ write }) => write).join(" or ");
}

function parseJson(text: string): Result<unknown, string> {
  try {
    return ok(JSON.parse(text) as unknown);
  } catch {
    return err("a list or record in JSON");
  }
}
