import { err, ok, type Result } from "../../base/index.ts";
import type { ReadProgress } from "../format-reader.ts";
import { importProblem, type ImportProblem } from "../import-problem.ts";
import { TABLE_LIMITS, type Table, type TableLimits } from "../tables/table.ts";
import { DateStyles } from "./date-styles.ts";
import type { Workbook, WorkbookSheet } from "./open-workbook.ts";
import { scanXml, type XmlListener } from "./scan-xml.ts";
import { SharedStrings } from "./shared-strings.ts";
import { SheetCells, type OddCell, type SheetRow } from "./sheet-cells.ts";

/** A sheet as a table of texts, with what was odd in it. */
export interface SheetRead {
  readonly table: Table;
  readonly warnings: readonly ImportProblem[];
}

/** Most odd cells that are listed one by one. */
const MOST_LISTED = 20;

/**
 * Reads the cells of one sheet as texts, in steps. Numbers come with a decimal point, formulas as the value that was last computed, dates
 * and error values not at all; each of these is reported. In merged ranges every cell has the text of the first.
 *
 * @param workbook The open workbook.
 * @param sheet One of its sheets.
 * @param limits Caps; absent means the usual ones.
 */
export function* readSheet(
  workbook: Workbook,
  sheet: WorkbookSheet,
  limits: TableLimits = TABLE_LIMITS,
): Generator<ReadProgress, Result<SheetRead, readonly ImportProblem[]>, void> {
  const strings = new SharedStrings();
  const dates = new DateStyles();
  const cells = new SheetCells({ strings: strings.strings, dates, limits });
  const parts: readonly (readonly [string, XmlListener, string])[] = [
    ["xl/styles.xml", dates, "Reading the styles"],
    ["xl/sharedStrings.xml", strings, "Reading the texts"],
    [sheet.part, cells, `Reading sheet ${sheet.name}`],
  ];
  for (const [part, listener, doing] of parts) {
    const bytes = workbook.unpack(part);
    if (!bytes) continue;
    if (!bytes.ok) return err([bytes.error]);
    const scan = scanXml(bytes.value, part, listener);
    let step = scan.next();
    for (; step.done !== true; step = scan.next()) yield { share: step.value, doing };
    const problem = step.value;
    if (problem)
      return err([{ ...problem, at: { ...problem.at, ...(part === sheet.part ? { sheet: sheet.name } : {}) } }]);
  }
  const filled = fillMerged(cells);
  const warnings = [...oddProblems(cells.odd, sheet.name)];
  if (filled > 0) warnings.push(importProblem("cells-merged", { sheet: sheet.name }, { cells: filled }));
  return ok({ table: { sheet: sheet.name, rows: cells.rows }, warnings });
}

/** Gives every cell of a merged range the text of its first one; returns how many cells got one. Only rows that exist are filled. */
function fillMerged({ rows, merged }: SheetCells): number {
  const byNumber = new Map<number, SheetRow>(rows.map((row) => [row.row, row]));
  const columns = Math.max(0, ...rows.slice(0, 1000).map((row) => row.cells.length));
  const last = rows.at(-1)?.row ?? 0;
  let filled = 0;
  // A range may claim the whole sheet, and there may be any number of ranges.
  let looked = 0;
  for (const range of merged) {
    const text = byNumber.get(range.top)?.cells[range.left] ?? "";
    if (text === "") continue;
    for (let number = range.top; number <= Math.min(range.bottom, last); number++) {
      const row = byNumber.get(number);
      for (let column = range.left; row && column <= Math.min(range.right, columns - 1); column++) {
        if (++looked > 1_000_000) return filled;
        if ((row.cells[column] ?? "") !== "") continue;
        while (row.cells.length < column) row.cells.push("");
        row.cells[column] = text;
        filled += 1;
      }
    }
  }
  return filled;
}

const CODES = {
  formula: "cell-is-formula",
  "formula-without-value": "formula-without-value",
  date: "cell-is-date",
  error: "cell-is-error",
} as const;

function oddProblems(odd: readonly OddCell[], sheet: string): readonly ImportProblem[] {
  const problems: ImportProblem[] = [];
  for (const [kind, code] of Object.entries(CODES)) {
    const found = odd.filter((cell) => cell.kind === kind);
    for (const { row, column } of found.slice(0, MOST_LISTED))
      problems.push(importProblem(code, { sheet, row, column }, { count: 1 }));
    const rest = found.length - MOST_LISTED;
    if (rest > 0) problems.push(importProblem(code, { sheet }, { count: rest }));
  }
  return problems;
}
