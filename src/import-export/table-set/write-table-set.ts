import type { HarnessDocument } from "../../harness-model/index.ts";
import { csvBytes, writeCsv, type CellValue } from "../csv.ts";
import { writeWorkbook } from "../xlsx/write-workbook.ts";
import { writeZip } from "../zip.ts";
import { setTables, type SetColumn, type SetTable, toCell } from "./set-tables.ts";

/** A table of the full set, ready to be written: its name and rows, the heading row first. */
export interface FilledTable {
  readonly name: string;
  readonly rows: readonly (readonly CellValue[])[];
}

/**
 * Lays a whole document out as tables. They hold everything the document holds; columns that no record uses are left out.
 *
 * @param document The document.
 * @returns The tables in the order of the schema.
 */
export function fillTableSet(document: HarnessDocument): readonly FilledTable[] {
  const tables = setTables();
  return tables.filter((table) => isThere(table, document)).map((table) => fillTable(table, tables, document));
}

/** Writes the full set of tables as one XLSX workbook, a sheet for each. The same document gives the same bytes. */
export function writeTableSetXlsx(document: HarnessDocument): Uint8Array {
  return writeWorkbook(fillTableSet(document));
}

/** Writes the full set of tables as CSV files in one zip file. The same document gives the same bytes. */
export function writeTableSetZip(document: HarnessDocument): Uint8Array {
  return writeZip(fillTableSet(document).map(({ name, rows }) => [`${name}.csv`, csvBytes(writeCsv(rows))]));
}

/** Whether a table is written: not where the document is without its list. */
function isThere({ list, inner, isOptional }: SetTable, document: HarnessDocument): boolean {
  return (
    inner !== undefined || isOptional !== true || new Map<string, unknown>(Object.entries(document)).has(list ?? "")
  );
}

function fillTable(table: SetTable, tables: readonly SetTable[], document: HarnessDocument): FilledTable {
  const { name, list, inner, columns } = table;
  const records = list === undefined ? [document] : listOf(document, list);
  if (inner === undefined) {
    const own = records.map((record) => ({ owner: [], record }));
    return { name, rows: withHeadings([], [...columns, ...emptyInner(tables, list)], own) };
  }
  const rows = records.flatMap((owner) => listOf(owner, inner).map((record) => ({ owner: [ownerId(owner)], record })));
  return { name, rows: withHeadings([list ?? ""], columns, rows) };
}

/** Columns of a list that say that an inner list which may be absent is there and empty. */
export function emptyInner(tables: readonly SetTable[], list: string | undefined): readonly SetColumn[] {
  return tables
    .filter(
      (table) => table.list === list && list !== undefined && table.inner !== undefined && table.isOptional === true,
    )
    .map((table): SetColumn => ({ path: [table.inner ?? ""], sort: "list" }));
}

function withHeadings(
  before: readonly string[],
  columns: readonly SetColumn[],
  records: readonly { readonly owner: readonly string[]; readonly record: unknown }[],
): CellValue[][] {
  const cells = records.map(({ record }) => columns.map((column) => cellAt(record, column)));
  const used = columns.map((_, at) => at).filter((at) => cells.some((row) => row[at] !== undefined));
  // An empty table keeps its first columns, so that it can be read and filled in.
  const kept = used.length > 0 ? used : columns.map((_, at) => at);
  const headings = [...before, ...kept.map((at) => columns[at]?.path.join(".") ?? "")];
  return [headings, ...cells.map((row, at) => [...(records[at]?.owner ?? []), ...kept.map((column) => row[column])])];
}

function cellAt(record: unknown, { path, sort, word }: SetColumn): CellValue {
  let value: unknown = record;
  for (const name of path) value = isRecord(value) ? new Map(Object.entries(value)).get(name) : undefined;
  const isInnerList = Array.isArray(value) && value.some((entry) => isRecord(entry));
  if (isInnerList && sort === "list") return undefined;
  // Where a value is either a text or a record, the record has columns of its own.
  if (sort === "text" && typeof value !== "string") return undefined;
  if (sort === "list" && typeof value === "string") return value;
  // A list of just that word is told apart from the word.
  const isThatWord = sort === "list" && Array.isArray(value) && value.length === 1 && value[0] === word;
  return isThatWord ? JSON.stringify(value) : toCell(value, sort);
}

function listOf(owner: unknown, name: string): readonly unknown[] {
  const value: unknown = isRecord(owner) ? new Map(Object.entries(owner)).get(name) : undefined;
  return Array.isArray(value) ? value : [];
}

function ownerId(owner: unknown): string {
  const id = isRecord(owner) ? owner["id"] : undefined;
  return typeof id === "string" ? id : "";
}

function isRecord(value: unknown): value is Record<string, unknown> {
  return typeof value === "object" && value !== null && !Array.isArray(value);
}
