/** One row of a table. Cells that end a row may be missing. */
export interface TableRow {
  /** Row from 1, counted in the file or sheet. */
  readonly row: number;
  /** Line of a text file in which the row starts, from 1. */
  readonly line?: number;
  readonly cells: readonly string[];
  /** Positions of cells that are numbers of a workbook; absent where cells are texts only. */
  readonly numbers?: ReadonlySet<number>;
}

/** A table of texts: a CSV file, or one sheet of a workbook. */
export interface Table {
  /** Name of the file, where several are read as one. */
  readonly file?: string;
  /** Name of the sheet; absent for a text file. */
  readonly sheet?: string;
  readonly rows: readonly TableRow[];
  /** The heading of a text that a table in it stands under. */
  readonly title?: string;
  /** Lines of text around the table. */
  readonly remarks?: readonly string[];
}

/** Caps on a table, so that a hostile or mistaken one ends in an answer. */
export interface TableLimits {
  readonly mostRows: number;
  readonly mostColumns: number;
  /** Longest cell, in characters. */
  readonly longestCell: number;
}

/** The usual caps. Common practice, no source: ten times what a large machine needs. */
export const TABLE_LIMITS: TableLimits = { mostRows: 250_000, mostColumns: 300, longestCell: 10_000 };
