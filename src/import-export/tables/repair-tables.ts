import { addTo, defined } from "../../base/index.ts";
import { importProblem, type ImportProblem } from "../import-problem.ts";
import type { Table, TableRow } from "./table.ts";

/** A correction of a table by a person: what one cell holds instead, or a row that is left out. It is kept beside the file, which stays as it is. */
export type TableRepair = {
  /** Sheet of the workbook; absent where the file has none. */
  readonly sheet?: string | undefined;
  /** Row from 1, as problems name it. */
  readonly row: number;
} & (
  | {
      /** Position of the cell from 1. */
      readonly column: number;
      /** What the cell holds instead. */
      readonly text: string;
    }
  | { readonly leaveOut: true }
);

/**
 * Applies repairs to the tables of a file, in their order, so that a repaired cell is read as if it stood so in the file. The text of a row that
 * is left out stays as a remark.
 *
 * @param tables The tables as they were loaded.
 * @param repairs What a person has corrected.
 * @returns The tables, and a problem for each row of a repair that is not there.
 */
export function repairTables(
  tables: readonly Table[],
  repairs: readonly TableRepair[],
): { readonly tables: readonly Table[]; readonly problems: readonly ImportProblem[] } {
  if (repairs.length === 0) return { tables, problems: [] };
  const byPlace = new Map<string, TableRepair[]>();
  for (const repair of repairs) addTo(byPlace, placeKey(repair.sheet, repair.row), repair);
  const repaired = tables.map((table) => {
    const remarks: string[] = [];
    const rows = table.rows.flatMap((row) => {
      const key = placeKey(table.sheet, row.row);
      const own = byPlace.get(key) ?? [];
      byPlace.delete(key);
      if (!own.some((repair) => "leaveOut" in repair)) return own.reduce(withCell, row);
      remarks.push(`Row ${row.row} left out: ${rowText(row)}`);
      return [];
    });
    return remarks.length > 0
      ? { ...table, rows, remarks: [...(table.remarks ?? []), ...remarks] }
      : { ...table, rows };
  });
  const lost = [...byPlace.values()].flatMap(([first]) => first ?? []);
  const problems = lost.map(({ sheet, row }) => importProblem("repair-lost", { row, ...defined({ sheet }) }, {}));
  return { tables: repaired, problems };
}

/** Key of a row of a file. */
export function placeKey(sheet: string | undefined, row: number): string {
  return `${row} ${sheet ?? ""}`;
}

/** All that stands in a row, each text once. */
export function rowText({ cells }: TableRow): string {
  return [...new Set(cells.map((cell) => cell.trim()).filter((cell) => cell !== ""))].join(" | ");
}

function withCell(row: TableRow, repair: TableRepair): TableRow {
  if ("leaveOut" in repair) return row;
  const at = repair.column - 1;
  const cells = Array.from({ length: Math.max(row.cells.length, at + 1) }, (_, column) => row.cells[column] ?? "");
  cells[at] = repair.text;
  // What a person types is a text, also where the workbook had a number.
  return {
    ...row,
    cells,
    ...(row.numbers && { numbers: new Set([...row.numbers].filter((column) => column !== at)) }),
  };
}
