import { err, ok, type Result } from "../../base/index.ts";
import { importProblem, type ImportPlace, type ImportProblem } from "../import-problem.ts";
import { PIN_TABLE_COLUMNS, type TableShape } from "./columns.ts";
import { missingFrom, proposeMapping } from "./propose-mapping.ts";
import type { ProposedMapping, TableMapping } from "./table-mapping.ts";
import type { TableOptions } from "./table-options.ts";
import type { Table, TableRow } from "./table.ts";

/** The heading row of a table and how its columns are understood. */
export interface Headings {
  /** Row from 1. */
  readonly row: number;
  readonly texts: readonly string[];
  /** The mapping to be used: the one given, or the one proposed. */
  readonly mapping: TableMapping;
  readonly proposed: ProposedMapping;
}

/** Tables often have a title and a date above the headings. */
const MOST_ROWS_ABOVE = 25;

/**
 * Finds the row of headings and what the columns mean.
 *
 * @param table The table.
 * @param options What a person has said; a given mapping is checked against the table.
 */
export function findHeadings(table: Table, options: TableOptions): Result<Headings, readonly ImportProblem[]> {
  const place: ImportPlace = table.sheet === undefined ? {} : { sheet: table.sheet };
  const candidates =
    options.headingRow === undefined
      ? table.rows.slice(0, MOST_ROWS_ABOVE)
      : table.rows.filter((row) => row.row === options.headingRow);
  let best: { row: TableRow; proposed: ProposedMapping; weight: number } | undefined;
  for (const row of candidates) {
    const proposed = proposeMapping(row.cells);
    const weight = (proposed.missing.length === 0 ? 100 : 0) + proposed.columns.length * (0.5 + proposed.score);
    if (!best || weight > best.weight) best = { row, proposed, weight };
  }
  const wanted = missingFrom("pin", new Set()).join(" and ");
  if (!best) return err([importProblem("headings-unknown", place, { missing: wanted })]);
  const { row, proposed } = best;
  if (options.mapping) {
    const fault = mappingFault(options.mapping, row.cells.length);
    if (fault !== undefined)
      return err([importProblem("mapping-wrong", { ...place, row: row.row }, { reason: fault })]);
  } else if (proposed.missing.length > 0) {
    const missing = proposed.columns.length === 0 ? wanted : proposed.missing.join(" and ");
    return err([importProblem("headings-unknown", { ...place, row: row.row }, { missing })]);
  }
  if (!table.rows.some((each) => each.row > row.row)) {
    const headings = row.cells.filter((cell) => cell.trim() !== "").length;
    return err([importProblem("table-no-rows", { ...place, row: row.row }, { headings })]);
  }
  return ok({ row: row.row, texts: row.cells, mapping: options.mapping ?? proposed, proposed });
}

/** What is wrong with a mapping for a table of so many columns; undefined if nothing is. */
function mappingFault(mapping: TableMapping, width: number): string | undefined {
  const seen = new Set<string>();
  for (const { column, field } of mapping.columns) {
    const known = PIN_TABLE_COLUMNS.find((each) => each.field === field);
    if (!known) return `there is no field "${field as string}"`;
    if (!(known.shapes as readonly TableShape[]).includes(mapping.shape))
      return `"${field}" does not belong in a table with a row for each ${mapping.shape}`;
    if (!Number.isInteger(column) || column < 0 || column >= width) return `column ${column + 1} is not there`;
    if (seen.has(field)) return `"${field}" is given twice`;
    seen.add(field);
  }
  const missing = missingFrom(mapping.shape, seen);
  return missing.length > 0 ? `a column is missing for ${missing.join(" and ")}` : undefined;
}

/** Warnings about headings that stand twice, columns nothing is taken from, and rows that go on beyond the headings. */
export function headingWarnings(table: Table, headings: Headings): readonly ImportProblem[] {
  const problems: ImportProblem[] = [];
  const place: ImportPlace = { ...(table.sheet === undefined ? {} : { sheet: table.sheet }), row: headings.row };
  const columns = new Map<string, number[]>();
  headings.texts.forEach((text, column) => {
    const key = text.trim().toLowerCase();
    if (key !== "") columns.set(key, [...(columns.get(key) ?? []), column + 1]);
  });
  for (const [heading, at] of columns) {
    if (at.length > 1) problems.push(importProblem("heading-twice", place, { heading, columns: at.join(", ") }));
  }
  const mapped = new Set(headings.mapping.columns.map((each) => each.column));
  const unmapped = headings.texts.filter((text, column) => text.trim() !== "" && !mapped.has(column));
  if (unmapped.length > 0)
    problems.push(importProblem("column-unmapped", place, { headings: unmapped.slice(0, 20).join(", ") }));
  const width = headings.texts.length;
  for (const { row, line, cells } of table.rows) {
    if (row <= headings.row || cells.length <= width || cells.slice(width).every((cell) => cell.trim() === ""))
      continue;
    const at = { ...place, row, ...(line === undefined ? {} : { line }) };
    problems.push(importProblem("row-too-long", at, { cells: cells.length, headings: width }));
    if (problems.length > 50) break;
  }
  return problems;
}
