import { importProblem, type ImportProblem } from "../import-problem.ts";
import type { ColumnField } from "./columns.ts";
import { findEndSeparator } from "./end-text.ts";
import { entriesOfPinRows } from "./entries-of-pin-rows.ts";
import { entriesOfWireRows } from "./entries-of-wire-rows.ts";
import type { EntryContext } from "./entry-context.ts";
import type { LoadedTable } from "./load-table.ts";
import { PointNamer } from "./point-namer.ts";
import type { DecimalSign } from "../../base/index.ts";
import { findDecimalSign } from "./find-decimal-sign.ts";
import { fieldColumns, rowRecords, type FieldColumn, type RowRecord } from "./row-records.ts";
import type { TableEntries } from "./table-entries.ts";
import type { TableOptions } from "./table-options.ts";

/** What a loaded table says, before it becomes a document. */
export interface UnderstoodTable {
  readonly records: readonly RowRecord[];
  readonly columns: ReadonlyMap<ColumnField, FieldColumn>;
  readonly entries: TableEntries;
  readonly optionLabels: ReadonlyMap<string, string>;
  readonly problems: readonly ImportProblem[];
  /** What was found out about the file, where the person did not say it. */
  readonly decimal: DecimalSign | undefined;
  readonly endSeparator: string | undefined;
}

/**
 * Reads the rows of a loaded table by the meaning of its columns, in steps that tell the share done.
 *
 * @param loaded The table with its headings.
 * @param options What a person has said.
 * @param mostRows Read no more than so many rows below the headings; absent means all.
 */
export function* understandTable(
  loaded: LoadedTable,
  options: TableOptions,
  mostRows?: number,
): Generator<number, UnderstoodTable, void> {
  const { table, headings } = loaded;
  const columns = fieldColumns(headings.mapping, headings.texts);
  const records = rowRecords(table, headings.row, columns);
  const problems: ImportProblem[] = [];
  const decimal = options.decimal ?? decimalOf(records);
  const endSeparator = options.endSeparator ?? separatorOf(records);
  const withoutUnit = new Map<ColumnField, number>();
  const optionLabels = new Map<string, string>();
  const namer = new PointNamer(options);
  const context: EntryContext = {
    columns,
    decimal,
    colours: options.colours ?? { kind: "iec-60757" },
    report: (problem) => problems.push(problem),
    withoutUnit,
    optionLabels,
    namer,
    endSeparator,
  };
  const some = mostRows === undefined ? records : records.slice(0, mostRows);
  const entries = yield* headings.mapping.shape === "wire"
    ? entriesOfWireRows(some, context)
    : entriesOfPinRows(some, context);
  for (const [field, count] of withoutUnit) {
    const column = columns.get(field)?.heading ?? field;
    problems.push(importProblem("unit-missing", { row: headings.row, column }, { column, count }));
  }
  const colours = entries.wires.filter((wire) => wire.facts.colour !== undefined).length;
  if (options.colours === undefined && colours > 0)
    problems.push(importProblem("colour-scheme-assumed", {}, { colours }));
  problems.push(...namer.problems());
  return { records, columns, entries, optionLabels, problems, decimal, endSeparator };
}

const MEASURES: readonly ColumnField[] = ["crossSection", "length", "terminalSize"];

function decimalOf(records: readonly RowRecord[]): DecimalSign | undefined {
  return findDecimalSign(
    records.flatMap((record) => MEASURES.flatMap((field) => (record.isNumber(field) ? [] : [record.text(field)]))),
  );
}

function separatorOf(records: readonly RowRecord[]): string | undefined {
  const texts = records.flatMap((record) =>
    (["from", "to"] as const).flatMap((side) => {
      const connector = record.text(`${side}Connector`);
      const whole = connector !== "" && record.text(`${side}Pin`) === "" ? connector : record.text(side);
      return whole === "" || record.text(`${side}Type`) !== "" ? [] : [whole];
    }),
  );
  return findEndSeparator(texts);
}
