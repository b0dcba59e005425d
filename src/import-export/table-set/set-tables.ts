import { z } from "zod";
import { HarnessDocument } from "../../harness-model/index.ts";
import { err, ok, readQuantity, type QuantityWay, type Result } from "../../base/index.ts";
import type { CellValue } from "../csv.ts";

/** What the cells of a column hold. A list is written as words with blanks between, or as JSON where that would not do. */
type ColumnSort = "text" | "number" | "flag" | "list" | "json";

/** One column of a table of the full set: the way to the value inside the record, and what it is. */
export interface SetColumn {
  readonly path: readonly string[];
  readonly sort: ColumnSort;
  /** The one word that may stand in the place of a list, such as `any`. */
  readonly word?: string;
}

/** One table of the full set. */
export interface SetTable {
  /** Name of the sheet, or of the file without its ending. */
  readonly name: string;
  /** The list of the document whose records are the rows; absent for the table of what the document says once. */
  readonly list?: string;
  /** The list inside each record of `list` whose entries are the rows; the first column then names the record. */
  readonly inner?: string;
  /** Whether the document may be without the list, or a record without its inner list. */
  readonly isOptional?: boolean;
  readonly columns: readonly SetColumn[];
}

const Node = z.looseObject({
  type: z.string().optional(),
  const: z.unknown().optional(),
  properties: z.record(z.string(), z.unknown()).optional(),
  required: z.array(z.string()).optional(),
  /** `false` after the last place of a tuple. */
  items: z.union([z.literal(false), z.record(z.string(), z.unknown())]).optional(),
  prefixItems: z.array(z.unknown()).optional(),
  anyOf: z.array(z.unknown()).optional(),
  oneOf: z.array(z.unknown()).optional(),
});
type Node = z.infer<typeof Node>;

/**
 * The tables of a full set, worked out from the schema of the harness document, so that no part of a document can be forgotten: one table
 * for each list, one for each list of records inside a record, one row of what there is only once.
 */
export function setTables(): readonly SetTable[] {
  const root = Node.parse(z.toJSONSchema(HarnessDocument, { target: "draft-2020-12", unrepresentable: "throw" }));
  const single: SetColumn[] = [];
  const tables: SetTable[] = [];
  for (const [name, raw] of Object.entries(root.properties ?? {})) {
    const node = Node.parse(raw);
    if (name === "format" || name === "version") continue;
    if (node.type !== "array") {
      single.push(...columnsOf(node, [name]).columns);
      continue;
    }
    const { columns, inner } = columnsOf(Node.parse(node.items), [], name);
    const isOptional = !(root.required ?? []).includes(name);
    tables.push({ name, list: name, ...(isOptional && { isOptional }), columns }, ...inner);
  }
  return [{ name: "about", columns: single }, ...tables];
}

interface Columns {
  readonly columns: readonly SetColumn[];
  readonly inner: readonly SetTable[];
}

/** The columns of a record, and the tables of the lists of records inside it; without a name of its list there are no such tables. */
function columnsOf(node: Node, path: readonly string[], list?: string): Columns {
  const columns = new Map<string, SetColumn>();
  const inner = new Map<string, SetTable>();
  const branches = node.anyOf ?? node.oneOf;
  if (branches) {
    for (const branch of branches) {
      const found = columnsOf(Node.parse(branch), path, list);
      for (const column of found.columns) {
        const before = columns.get(column.path.join("."))?.word;
        columns.set(column.path.join("."), { ...(before !== undefined && { word: before }), ...column });
      }
      for (const table of found.inner) inner.set(table.name, table);
    }
  } else if (node.type === "object") {
    for (const [name, raw] of Object.entries(node.properties ?? {})) {
      const child = Node.parse(raw);
      if (path.length === 0 && list !== undefined && isListOfRecords(child)) {
        const isOptional = !(node.required ?? []).includes(name);
        const { columns: own } = columnsOf(Node.parse(child.items), []);
        inner.set(name, { name: `${list}-${name}`, list, inner: name, isOptional, columns: own });
        continue;
      }
      const found = columnsOf(child, [...path, name], list);
      for (const column of found.columns) columns.set(column.path.join("."), column);
    }
  } else
    columns.set(path.join("."), {
      path,
      sort: sortOf(node),
      ...(typeof node.const === "string" && { word: node.const }),
    });
  return { columns: [...columns.values()], inner: [...inner.values()] };
}

function isListOfRecords(node: Node): boolean {
  if (node.type !== "array" || (node.items ?? false) === false) return false;
  const items = Node.parse(node.items);
  return items.type === "object" || items.anyOf !== undefined || items.oneOf !== undefined;
}

function sortOf(node: Node): ColumnSort {
  switch (node.type) {
    case "string":
      return "text";
    case "number":
    case "integer":
      return "number";
    case "boolean":
      return "flag";
    case "array": {
      const items = [...(node.prefixItems ?? []), ...((node.items ?? false) === false ? [] : [node.items])];
      return items.every((item) => Node.parse(item).type === "string") ? "list" : "json";
    }
    case undefined:
    default:
      return "json";
  }
}

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
