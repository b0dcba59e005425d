import type { ImportPlace } from "../import-problem.ts";
import type { ColumnField, Unit } from "./columns.ts";

/** One row of a table by the meaning of its columns. */
export interface RowRecord {
  readonly row: number;
  /** The trimmed text of a field; empty if the row or the table has none. */
  readonly text: (field: ColumnField) => string;
  /** The heading of a field. */
  readonly heading: (field: ColumnField) => string;
  /** What stands in columns that hold no field, each with its heading. */
  readonly rest: () => readonly string[];
  /** All that stands in the row, as it was written. */
  readonly whole: () => string;
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

/** What a row says about a wire apart from its ends; lengths in mm, sizes in mm². */
export interface WireFacts {
  readonly colour?: string;
  readonly crossSectionMm2?: number;
  readonly lengthMm?: number;
  readonly net?: string;
  readonly harness?: string;
  readonly group?: string;
  readonly when?: string;
  readonly note?: string;
}
