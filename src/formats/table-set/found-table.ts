import type { Table } from "../tables/table.ts";

/** A table of a set as found in the file. */
export interface FoundTable {
  readonly table: Table;
  readonly isDecimalComma: boolean;
}
