import type { Table, TableRow } from "../tables/table.ts";
import { err, ok, type Result } from "../../base/index.ts";
import { FORMAT_NAME, FORMAT_VERSION } from "../../harness-model/index.ts";
import { parseCsv } from "../csv.ts";
import { judgeDocument } from "../draft/finish-draft.ts";
import type { FormatReader, Reading, ReadOptions, ReadProgress } from "../format-reader.ts";
import { importProblem, inFile, sizeFault, type ImportPlace, type ImportProblem } from "../import-problem.ts";
import { recogniseFile } from "../recognise-file.ts";
import { decodeText } from "../text.ts";
import { openWorkbook, readSheet } from "../xlsx/read-workbook.ts";
import { unpackEntry, readZipDirectory } from "../zip.ts";
import { fromCell, setTables, type SetColumn, type SetTable } from "./set-tables.ts";
import { emptyInner } from "./write-table-set.ts";

/** A table of a set as found in the file. */
interface FoundTable {
  readonly table: Table;
  readonly isDecimalComma: boolean;
}

type Loading = Generator<ReadProgress, Result<ReadonlyMap<string, FoundTable>, readonly ImportProblem[]>, void>;

/** Most bytes of a set, packed. */
const MOST_BYTES = 128 * 1024 * 1024;
/** Cells of a set may hold a whole curve. */
const LIMITS = { mostRows: 250_000, mostColumns: 300, longestCell: 100_000 };

/** Reads the full set of tables from one XLSX workbook. */
export const tableSetXlsxReader: FormatReader = {
  id: "table-set-xlsx",
  label: "Full set of tables, XLSX",
  extensions: [".xlsx"],
  recognises: (bytes, fileName) => recogniseFile(bytes, fileName).kind === "table-set-xlsx",
  read: (bytes, options) => readSet(loadSheets(bytes), bytes, options),
};

/** Reads the full set of tables from CSV files in one zip file. */
export const tableSetZipReader: FormatReader = {
  id: "table-set-zip",
  label: "Full set of tables, CSV files in a zip file",
  extensions: [".zip"],
  recognises: (bytes, fileName) => recogniseFile(bytes, fileName).kind === "table-set-zip",
  read: (bytes, options) => readSet(loadFiles(bytes), bytes, options),
};

function* readSet(loading: Loading, bytes: Uint8Array, options: ReadOptions): Reading {
  const named = (problems: readonly ImportProblem[]) => problems.map((problem) => inFile(problem, options.fileName));
  const fault = sizeFault(bytes, options.mostBytes ?? MOST_BYTES);
  if (fault) return err(named([fault]));
  const loaded = yield* loading;
  if (!loaded.ok) return err(named(loaded.error));
  yield { share: 0.6, doing: "Reading the rows" };
  const records = setRecords(loaded.value);
  if (records.problems.some((problem) => problem.severity === "error")) return err(named(records.problems));
  yield { share: 0.8, doing: "Checking the harness" };
  const document = { format: FORMAT_NAME, version: FORMAT_VERSION, ...records.document };
  return judgeDocument(document, named(records.problems), (path) => placeOf(path, records, options.fileName));
}

function* loadSheets(bytes: Uint8Array): Loading {
  const workbook = openWorkbook(bytes);
  if (!workbook.ok) return workbook;
  const tables = new Map<string, FoundTable>();
  for (const sheet of workbook.value.sheets) {
    const read = yield* readSheet(workbook.value, sheet, LIMITS);
    if (!read.ok) return read;
    tables.set(sheet.name, { table: read.value.table, isDecimalComma: false });
  }
  return ok(tables);
}

function* loadFiles(bytes: Uint8Array): Loading {
  const directory = readZipDirectory(bytes);
  if (!directory.ok) return err([directory.error]);
  const tables = new Map<string, FoundTable>();
  for (const [fileName, entry] of directory.value) {
    const name = /^([^/]+)\.csv$/u.exec(fileName)?.[1];
    if (name === undefined) continue;
    yield { share: (0.5 * tables.size) / directory.value.size, doing: `Reading ${fileName}` };
    const unpacked = unpackEntry(bytes, entry);
    if (!unpacked.ok) return err([unpacked.error]);
    const decoded = decodeText(unpacked.value);
    if (!decoded.ok) return err([inFile(decoded.error, fileName)]);
    const parsed = parseCsv(decoded.value.text, { limits: LIMITS });
    if (!parsed.ok) return err(parsed.error.map((problem) => inFile(problem, fileName)));
    // A spreadsheet that divides cells by semicolons writes numbers with a comma.
    tables.set(name, { table: parsed.value, isDecimalComma: parsed.value.delimiter === ";" });
  }
  return ok(tables);
}

/** Where a way into the document leads to: the row of the innermost record that has one of its own. */
function placeOf(path: string, records: SetRecords, file: string): ImportPlace | undefined {
  const steps = /^(\w+)\[(\d+)\](?:\.(\w+)\[(\d+)\])?/u.exec(path);
  if (!steps) return { file, sheet: "about", path };
  const [, list = "", at = "", inner, innerAt] = steps;
  const found =
    records.places.get(`${list}[${at}].${inner ?? ""}[${innerAt ?? ""}]`) ?? records.places.get(`${list}[${at}]`);
  return found && { file, ...found };
}

/** A record that is put together; names come from the schema, never from the file. */
interface Draft {
  [name: string]: unknown;
}

/** Tables without which a set is no set. */
const NEEDED: readonly string[] = ["about", "builds", "connectors", "wires"];

/** Puts the document together from the tables of a set. */
function setRecords(found: ReadonlyMap<string, FoundTable>): SetRecords {
  const tables = setTables();
  const records = new SetRecords(tables);
  const known = new Set(tables.map((table) => table.name));
  for (const name of found.keys())
    if (!known.has(name))
      records.problems.push(importProblem("set-table-unknown", { sheet: name }, { table: name.slice(0, 60) }));
  for (const name of NEEDED)
    if (!found.has(name)) records.problems.push(importProblem("set-table-missing", {}, { table: name }));
  for (const table of tables) records.take(table, found.get(table.name));
  return records;
}

/** What a set of tables says: the document without its head, the place of each record by its way into the document, and problems. */
class SetRecords {
  readonly document: Draft = {};
  readonly places = new Map<string, ImportPlace>();
  readonly problems: ImportProblem[] = [];
  readonly #owners = new Map<string, Map<string, { record: Draft; path: string }>>();
  readonly #tables: readonly SetTable[];

  constructor(tables: readonly SetTable[]) {
    this.#tables = tables;
  }

  take(table: SetTable, found: FoundTable | undefined): void {
    const [headings, ...body] = found?.table.rows ?? [];
    const columns = headings ? this.#columns(table, headings) : new Map<number, SetColumn>();
    const rows = body.map((row): RowAt => ({ row, columns, isDecimalComma: found?.isDecimalComma === true }));
    const [first] = rows;
    if (table.list === undefined) Object.assign(this.document, first && this.#record(table, first));
    else if (table.inner === undefined) this.#takeList(table, table.list, found && rows);
    else this.#takeInner(table, rows);
  }

  #takeList(table: SetTable, list: string, rows: readonly RowAt[] | undefined): void {
    const owners = new Map<string, { record: Draft; path: string }>();
    this.#owners.set(list, owners);
    const inner = this.#tables.filter((each) => each.list === list && each.inner !== undefined);
    if (rows === undefined && table.isOptional === true) return;
    this.document[list] = (rows ?? []).map((at, number) => {
      const record = this.#record(table, at);
      // An inner list that must be there is there even where its table has no row for this record.
      for (const each of inner) if (each.isOptional !== true && each.inner !== undefined) record[each.inner] = [];
      const path = `${list}[${number}]`;
      this.places.set(path, placeInTable(table, at.row));
      if (typeof record["id"] === "string" && !owners.has(record["id"])) owners.set(record["id"], { record, path });
      return record;
    });
  }

  #takeInner(table: SetTable, rows: readonly RowAt[]): void {
    const { list = "", inner = "" } = table;
    for (const at of rows) {
      const id = at.row.cells[0] ?? "";
      const owner = this.#owners.get(list)?.get(id);
      if (!owner) {
        const facts = { table: table.name, owner: id.slice(0, 80) };
        this.problems.push(importProblem("set-owner-unknown", placeInTable(table, at.row), facts));
        continue;
      }
      const before = owner.record[inner];
      const entries: unknown[] = Array.isArray(before) ? before : [];
      entries.push(this.#record(table, at));
      owner.record[inner] = entries;
      this.places.set(`${owner.path}.${inner}[${entries.length - 1}]`, placeInTable(table, at.row));
    }
  }

  #columns(table: SetTable, headings: TableRow): ReadonlyMap<number, SetColumn> {
    const inner = table.inner === undefined ? emptyInner(this.#tables, table.list) : [];
    const byName = new Map([...table.columns, ...inner].map((column) => [column.path.join("."), column]));
    const columns = new Map<number, SetColumn>();
    headings.cells.forEach((heading, at) => {
      if (heading.trim() === "" || (table.inner !== undefined && at === 0)) return;
      const column = byName.get(heading.trim());
      if (column) columns.set(at, column);
      else {
        const facts = { table: table.name, column: heading.slice(0, 60) };
        this.problems.push(importProblem("set-column-unknown", placeInTable(table, headings), facts));
      }
    });
    return columns;
  }

  #record(table: SetTable, { row, columns, isDecimalComma }: RowAt): Draft {
    const record: Draft = {};
    for (const [at, { path, sort, word }] of columns) {
      const text = row.cells[at] ?? "";
      const value = sort === "list" && text === word ? ok(text) : fromCell(text, sort, isDecimalComma);
      if (!value.ok) {
        const place = { ...placeInTable(table, row), column: path.join(".") };
        this.problems.push(importProblem("set-value-wrong", place, { text: text.slice(0, 80), wanted: value.error }));
      } else if (value.value !== undefined) put(record, path, value.value);
    }
    return record;
  }
}

interface RowAt {
  readonly row: TableRow;
  readonly columns: ReadonlyMap<number, SetColumn>;
  readonly isDecimalComma: boolean;
}

function placeInTable(table: SetTable, row: TableRow): ImportPlace {
  return { sheet: table.name, row: row.row };
}

/** Puts a value where a way of names leads; the names come from the schema. */
function put(record: Draft, path: readonly string[], value: unknown): void {
  let inner = record;
  for (const name of path.slice(0, -1)) {
    const next: unknown = inner[name];
    const made: Draft = typeof next === "object" && next !== null ? (next as Draft) : {};
    inner[name] = made;
    inner = made;
  }
  inner[path.at(-1) ?? ""] = value;
}
