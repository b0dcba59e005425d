import { csvBytes, writeCsv, type CellValue, type ImportProblem } from "../../import-export/index.ts";

const HEADINGS = ["Severity", "Code", "File", "Sheet", "Row", "Column", "Line", "Path", "Problem", "What to do"];

/**
 * Problems of a file as a CSV table, a row each, so that they can be worked off in a spreadsheet. Texts that look like formulas are
 * guarded.
 *
 * @param problems The problems.
 * @returns UTF-8 with a byte order mark, as spreadsheets expect it.
 */
export function problemsCsv(problems: readonly ImportProblem[]): Uint8Array {
  const rows = problems.map(({ severity, code, at, message, hint }): readonly CellValue[] => {
    return [severity, code, at.file, at.sheet, at.row, at.column, at.line, at.path, message, hint];
  });
  return csvBytes(writeCsv([HEADINGS, ...rows]));
}
