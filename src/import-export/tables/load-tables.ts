import { defined, err, ok, type Result } from "../../base/index.ts";
import { findDelimiter, parseCsv, type Delimiter } from "../csv.ts";
import type { ReadProgress } from "../format-reader.ts";
import { importProblem, sizeFault, type ImportProblem } from "../import-problem.ts";
import { readOds } from "../ods/read-ods.ts";
import { decodeText } from "../text.ts";
import { openWorkbook, readSheet } from "../xlsx/read-workbook.ts";
import { htmlTables, markdownTables } from "./markup-tables.ts";
import { repairTables } from "./repair-tables.ts";
import type { TableReadOptions } from "./table-options.ts";
import type { Table } from "./table.ts";
import type { LoadedTables } from "./understand-tables.ts";

/** Formats that tables come in. */
export type TableFormat = "csv" | "xlsx" | "ods" | "markdown" | "html";

/** Loading tables, in steps. */
type TableLoading = Generator<ReadProgress, Result<LoadedTables, readonly ImportProblem[]>, void>;

/** Most bytes of a table file. */
const MOST_BYTES = 64 * 1024 * 1024;
const SIGNS = { ",": "commas", ";": "semicolons", "\t": "tabs" } as const;

/** Loads the tables of a file: decodes it, cuts it into cells, and repairs these as a person has said. */
export function* loadTables(bytes: Uint8Array, format: TableFormat, options: TableReadOptions): TableLoading {
  const fault = sizeFault(bytes, options.mostBytes ?? MOST_BYTES);
  if (fault) return err([fault]);
  const loaded = yield* format === "xlsx"
    ? loadXlsx(bytes, options)
    : format === "ods"
      ? loadOds(bytes, options)
      : loadText(bytes, format, options);
  if (!loaded.ok) return loaded;
  const repaired = repairTables(loaded.value.tables, options.table?.repairs ?? []);
  const tables = repaired.tables.filter(({ rows }) => rows.length > 0);
  const warnings = [...loaded.value.warnings, ...repaired.problems];
  if (tables.length > 0) return ok({ ...loaded.value, tables, warnings });
  const [first] = loaded.value.tables;
  return err([importProblem("file-empty", defined({ sheet: first?.sheet }), { bytes: bytes.length })]);
}

function* loadText(bytes: Uint8Array, format: TableFormat, { table: said = {} }: TableReadOptions): TableLoading {
  const decoded = decodeText(bytes);
  if (!decoded.ok) return err([decoded.error]);
  const { text, encoding } = decoded.value;
  yield { share: 0.1, doing: "Cutting the text into cells" };
  const warnings = encoding === "Windows-1252" ? [importProblem("encoding-assumed", {}, { encoding })] : [];
  if (format !== "csv") {
    const tables = format === "html" ? htmlTables(text) : markdownTables(text);
    return tables.ok ? ok({ tables: tables.value, warnings, encoding }) : tables;
  }
  const listed = said.delimiter === undefined ? listedCells(text) : undefined;
  const parsed = listed === undefined ? parseCsv(text, defined({ delimiter: said.delimiter })) : parseCsv(listed);
  if (!parsed.ok) return parsed;
  const { delimiter } = parsed.value;
  const mixed = findMixedDelimiters(parsed.value, delimiter);
  if (mixed.length > 0) return err(mixed);
  return ok({ tables: [{ rows: parsed.value.rows }], warnings, encoding, delimiter });
}

/** What stands between the parts of a line in a typed list: `1 - Red - Battery +`, `Pin 2: black`. */
const BETWEEN = /\s+[-–—=|]+\s+|\s*:\s+/gu;

/** A list as people type it, without any delimiter, as text with tabs; undefined where most lines are no such list. */
function listedCells(text: string): string | undefined {
  if (findDelimiter(text) !== undefined) return undefined;
  const lines = text.split(/\r?\n/u).filter((line) => line.trim() !== "");
  const parted = lines.filter((line) => /^\s*\S{1,12}(?:\s\S{1,6})?(?:\s+[-–—=|]+|\s*:)\s+\S/u.test(line));
  if (parted.length < 2 || parted.length < 0.7 * lines.length) return undefined;
  return text.replaceAll(/^\s*pin\s+(?=\S)/gimu, "").replaceAll(BETWEEN, "\t");
}

function* loadXlsx(bytes: Uint8Array, options: TableReadOptions): TableLoading {
  const workbook = openWorkbook(bytes);
  if (!workbook.ok) return workbook;
  const all = workbook.value.sheets;
  const visible = all.filter((sheet) => !sheet.isHidden);
  const sheets = visible.map((sheet) => sheet.name);
  const chosen = chosenSheets(all, visible.length > 0 ? visible : all, options);
  if (!chosen.ok) return chosen;
  const tables: Table[] = [];
  const warnings: ImportProblem[] = [];
  for (const sheet of chosen.value) {
    const read = yield* readSheet(workbook.value, sheet);
    if (!read.ok) return read;
    tables.push(read.value.table);
    warnings.push(...read.value.warnings);
  }
  return ok({ tables, warnings, sheets });
}

function* loadOds(bytes: Uint8Array, options: TableReadOptions): TableLoading {
  const read = yield* readOds(bytes);
  if (!read.ok) return read;
  const named = read.value.map((table) => ({ name: table.sheet ?? "", table }));
  const chosen = chosenSheets(named, named, options);
  if (!chosen.ok) return chosen;
  return ok({ tables: chosen.value.map(({ table }) => table), warnings: [], sheets: named.map(({ name }) => name) });
}

/** The sheet that is asked for; without one, or with columns said for any, all that can be seen. */
function chosenSheets<Sheet extends { readonly name: string }>(
  all: readonly Sheet[],
  visible: readonly Sheet[],
  { table: said = {} }: TableReadOptions,
): Result<readonly Sheet[], readonly ImportProblem[]> {
  if (said.sheet === undefined) return ok(visible);
  const named = all.filter((sheet) => sheet.name === said.sheet);
  if (named.length > 0) return ok(named);
  const facts = { sheet: said.sheet.slice(0, 80), sheets: visible.map(({ name }) => name).join(", ") };
  return err([importProblem("sheet-unknown", {}, facts)]);
}

/** Rows that fall into fewer cells than the rest of the table, and into about as many by another sign. */
function findMixedDelimiters(table: Table, used: Delimiter): readonly ImportProblem[] {
  const width = Math.max(0, ...table.rows.slice(0, 200).map((row) => row.cells.length));
  if (width < 3) return [];
  const problems: ImportProblem[] = [];
  for (const { row, line, cells } of table.rows) {
    if (cells.filter((cell) => cell.trim() !== "").length * 2 > width) continue;
    const isBy = (sign: string): boolean => sign !== used && cells.join(used).split(sign).length >= width - 1;
    const [, other] = Object.entries(SIGNS).find(([sign]) => isBy(sign)) ?? [];
    if (other === undefined) continue;
    problems.push(importProblem("delimiter-mixed", { row, ...defined({ line }) }, { used: SIGNS[used], other }));
    if (problems.length >= 20) break;
  }
  return problems;
}
