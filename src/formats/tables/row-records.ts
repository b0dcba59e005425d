import type { ImportPlace } from "../import-problem.ts";
import type { ColumnField } from "./columns.ts";
import type { Table } from "./table.ts";
import type { TableMapping } from "./table-mapping.ts";
import type { Unit } from "./units.ts";

/** One row of a table by the meaning of its columns. */
export interface RowRecord {
  readonly row: number;
  /** The trimmed text of a field; empty if the row or the table has none. */
  readonly text: (field: ColumnField) => string;
  /** Whether the cell is a number of a workbook, which always has a decimal point. */
  readonly isNumber: (field: ColumnField) => boolean;
  /** The place of the row, or of a field in it. */
  readonly at: (field?: ColumnField) => ImportPlace;
}

/** A column with its place, heading and unit. */
export interface FieldColumn {
  readonly column: number;
  readonly heading: string;
  readonly unit?: Unit;
}

/** The columns of a mapping by field, with their headings. */
export function fieldColumns(
  mapping: TableMapping,
  headings: readonly string[],
): ReadonlyMap<ColumnField, FieldColumn> {
  return new Map(
    mapping.columns.map(({ column, field, unit }): [ColumnField, FieldColumn] => [
      field,
      { column, heading: headings[column]?.trim() ?? String(column + 1), ...(unit === undefined ? {} : { unit }) },
    ]),
  );
}

/** The rows below the headings, each by the meaning of its columns; rows in which no mapped column holds anything are left out. */
export function rowRecords(
  table: Table,
  headingRow: number,
  columns: ReadonlyMap<ColumnField, FieldColumn>,
): readonly RowRecord[] {
  const { sheet } = table;
  const records: RowRecord[] = [];
  for (const { row, line, cells, numbers } of table.rows) {
    if (row <= headingRow) continue;
    const text = (field: ColumnField): string => cells[columns.get(field)?.column ?? -1]?.trim() ?? "";
    if (![...columns.keys()].some((field) => text(field) !== "")) continue;
    const place: ImportPlace = {
      ...(sheet === undefined ? {} : { sheet }),
      row,
      ...(line === undefined ? {} : { line }),
    };
    records.push({
      row,
      text,
      isNumber: (field) => numbers?.has(columns.get(field)?.column ?? -1) === true,
      at: (field) => {
        const column = field && columns.get(field)?.heading;
        return column === undefined ? place : { ...place, column };
      },
    });
  }
  return records;
}
