import type { ColumnField, TableShape } from "./columns.ts";
import type { Unit } from "./units.ts";

/** What one column of a table holds. */
export interface MappedColumn {
  /** Position of the column, from 0. */
  readonly column: number;
  readonly field: ColumnField;
  /** Unit of a length or size; absent means that each cell says its own, or that the column holds neither. */
  readonly unit?: Unit;
}

/** How a table is to be understood: plain data that a person may edit and that may be stored. */
export interface TableMapping {
  readonly shape: TableShape;
  readonly columns: readonly MappedColumn[];
}

/** A mapping as it was found from the headings. */
export interface ProposedMapping extends TableMapping {
  /** How sure the mapping is, from 0 to 1; 0 if what a table needs at least is missing. */
  readonly score: number;
  /** What is missing, in words, where the score is 0. */
  readonly missing: readonly string[];
  /** Score of each mapped column, by its position. */
  readonly columnScores: ReadonlyMap<number, number>;
  /** Positions of columns with a heading that nothing is taken from. */
  readonly unmapped: readonly number[];
}

/** The position of the column that holds a field; undefined if none does. */
export function columnFor(mapping: TableMapping, field: ColumnField): number | undefined {
  return mapping.columns.find((each) => each.field === field)?.column;
}
