import { ok } from "../../base/index.ts";
import { importProblem, type ImportPlace, type ImportProblem } from "../import-problem.ts";
import type { TableRow } from "../tables/table.ts";
import type { FoundTable } from "./found-table.ts";
import { fromCell } from "./set-cells.ts";
import { emptyInner } from "./write-table-set.ts";
import { setTables, type SetColumn, type SetTable } from "./set-tables.ts";

/** A record that is put together; names come from the schema, never from the file. */
interface Draft {
  [name: string]: unknown;
}

/** What a set of tables says: the document without its head, the place of each record by its way into the document, and problems. */
export interface SetRecords {
  readonly document: Readonly<Record<string, unknown>>;
  readonly places: ReadonlyMap<string, ImportPlace>;
  readonly problems: readonly ImportProblem[];
}

/** Tables without which a set is no set. */
const NEEDED: readonly string[] = ["about", "builds", "connectors", "wires"];

/** Puts the document together from the tables of a set. */
export function setRecords(found: ReadonlyMap<string, FoundTable>): SetRecords {
  const tables = setTables();
  const maker = new SetMaker(tables);
  const known = new Set(tables.map((table) => table.name));
  for (const name of found.keys()) {
    if (!known.has(name))
      maker.problems.push(importProblem("set-table-unknown", { sheet: name }, { table: name.slice(0, 60) }));
  }
  for (const name of NEEDED) {
    if (!found.has(name)) maker.problems.push(importProblem("set-table-missing", {}, { table: name }));
  }
  for (const table of tables) maker.take(table, found.get(table.name));
  return maker;
}

class SetMaker implements SetRecords {
  readonly document: Draft = {};
  readonly places = new Map<string, ImportPlace>();
  readonly problems: ImportProblem[] = [];
  readonly #owners = new Map<string, Map<string, { record: Draft; path: string }>>();
  readonly #tables: readonly SetTable[];

  constructor(tables: readonly SetTable[]) {
    this.#tables = tables;
  }

  take(table: SetTable, found: FoundTable | undefined): void {
    const rows = found?.table.rows ?? [];
    const [headings, ...body] = rows;
    const columns = headings ? this.#columns(table, headings) : new Map<number, SetColumn>();
    if (table.list === undefined) {
      const [row] = body;
      if (row && found) Object.assign(this.document, this.#record(table, { row, columns, found }));
      return;
    }
    if (table.inner === undefined)
      this.#takeList(
        table,
        { list: table.list, found },
        body.map((row) => ({ row, columns, found })),
      );
    else
      this.#takeInner(
        table,
        body.map((row) => ({ row, columns, found })),
      );
  }

  #takeList(
    table: SetTable,
    { list, found }: { readonly list: string; readonly found: FoundTable | undefined },
    rows: readonly RowAt[],
  ): void {
    const owners = new Map<string, { record: Draft; path: string }>();
    this.#owners.set(list, owners);
    const inner = this.#tables.filter((each) => each.list === list && each.inner !== undefined);
    if (found === undefined && table.isOptional === true) return;
    this.document[list] = rows.map((at, number) => {
      const record = this.#record(table, at);
      // An inner list that must be there is there even where its table has no row for this record.
      for (const each of inner) if (each.isOptional !== true && each.inner !== undefined) record[each.inner] = [];
      const path = `${list}[${number}]`;
      this.places.set(path, placeOf(table, at.row));
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
        this.problems.push(importProblem("set-owner-unknown", placeOf(table, at.row), facts));
        continue;
      }
      const before = owner.record[inner];
      const entries: unknown[] = Array.isArray(before) ? before : [];
      entries.push(this.#record(table, at));
      owner.record[inner] = entries;
      this.places.set(`${owner.path}.${inner}[${entries.length - 1}]`, placeOf(table, at.row));
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
        this.problems.push(importProblem("set-column-unknown", placeOf(table, headings), facts));
      }
    });
    return columns;
  }

  #record(table: SetTable, { row, columns, found }: RowAt): Draft {
    const record: Draft = {};
    for (const [at, { path, sort, word }] of columns) {
      const text = row.cells[at] ?? "";
      const value = sort === "list" && text === word ? ok(text) : fromCell(text, sort, found?.isDecimalComma === true);
      if (!value.ok) {
        const place = { ...placeOf(table, row), column: path.join(".") };
        this.problems.push(importProblem("set-value-wrong", place, { text: text.slice(0, 80), wanted: value.error }));
      } else if (value.value !== undefined) put(record, path, value.value);
    }
    return record;
  }
}

interface RowAt {
  readonly row: TableRow;
  readonly columns: ReadonlyMap<number, SetColumn>;
  readonly found: FoundTable | undefined;
}

function placeOf(table: SetTable, row: TableRow): ImportPlace {
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
