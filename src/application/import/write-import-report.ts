import { safeLines } from "../../base/index.ts";
import { columns } from "../text/columns.ts";
import { counted, section } from "../text/frame.ts";
import { canAskLines, leadSetupLines } from "../text/write-problems.ts";
import { ledgerText } from "./file-ledger.ts";
import type { FileProblem } from "./file-problem.ts";
import type { ImportReport } from "./import-report.ts";

/** Problems shown of each code, and colour codes shown: a table with one fault a row would bury the rest. */
const MOST_OF_A_CODE = 10;
const MOST_COLOURS = 20;

/**
 * Writes a report on an import as plain text for people: what was read, how it was understood, what is wrong, what may be said yet.
 *
 * @param report The report.
 * @returns The text, with a line end at its end.
 */
export function writeImportReport(report: ImportReport): string {
  const { kind, files, errors, warnings, holds, problems, written } = report;
  const counts = `${counted(errors, "error")}, ${counted(warnings, "warning")}`;
  const names = files.map((file) => file.name).join(", ");
  const done = kind === "not-imported" ? "not imported" : written === undefined ? "can be imported" : "imported";
  return safeLines([
    `${names}: ${done} (${counts})`,
    ...files.map((file, at) => (files.length === 1 ? file.label : `${at + 1} ${file.name}: ${file.label}`)),
    ...(holds ? leadSetupLines(holds) : []),
    ...tableLines(report),
    ...ledgerLines(report),
    ...pairLines(report),
    ...proposalLines(report),
    ...(problems.length === 0 ? [] : ["", ...fileProblemLines(problems)]),
    ...(written === undefined ? [] : ["", `Written to ${written}`]),
    ...(holds ? canAskLines(holds, written ?? "FILE") : []),
  ]);
}

/**
 * Problems of files as lines: severity, code, place, what is wrong, what to do. Of each code the first few are shown and the rest counted.
 *
 * @param problems The problems.
 */
export function fileProblemLines(problems: readonly FileProblem[]): readonly string[] {
  const counts = new Map<string, number>();
  const sorted = [...problems].sort((first, second) => rank(first) - rank(second));
  const lines = sorted.flatMap(({ severity, code, at, message, hint }) => {
    const count = (counts.get(code) ?? 0) + 1;
    counts.set(code, count);
    if (count > MOST_OF_A_CODE) return [];
    return [`${severity} ${code} at ${placeWords(at)}`, `  ${message}`, ...(count === 1 ? [`  ${hint}`] : [])];
  });
  const more = [...counts].filter(([, count]) => count > MOST_OF_A_CODE);
  return [...lines, ...more.map(([code, count]) => `and ${count - MOST_OF_A_CODE} more of ${code}`)];
}

function rank({ severity }: FileProblem): number {
  return severity === "error" ? 0 : 1;
}

function placeWords({ file, sheet, row, column, line, path }: FileProblem["at"]): string {
  const parts = [
    file ?? "",
    sheet === undefined ? "" : `sheet ${sheet}`,
    row === undefined ? "" : `row ${row}`,
    column === undefined ? "" : `column ${column}`,
    line === undefined || row !== undefined ? "" : `line ${line}`,
    path ?? "",
  ];
  return parts.filter((part) => part !== "").join(", ") || "the harness as a whole";
}

function tableLines({ table }: ImportReport): readonly string[] {
  if (!table) return [];
  const { shape, headingRow, rows, sheet, unused, colours } = table;
  const where = sheet === undefined ? "" : `, sheet ${sheet}`;
  const signs = [table.encoding, nameOfSign(table.delimiter), table.decimal === "comma" ? "decimal comma" : undefined];
  const unread = colours.filter((colour) => colour.colour === undefined);
  const shown = unread.slice(0, MOST_COLOURS).map((colour) => `${colour.written} (${colour.count})`);
  return [
    ...section(`A row for each ${shape}: ${counted(rows, "row")} below row ${headingRow}${where}`, [
      ...columns(table.columns.map(({ column, heading, field, unit }) => [String(column), heading, field, unit ?? ""])),
      ...(unused.length > 0 ? [`  not used: ${unused.join(", ")}`] : []),
      ...[signs.filter((sign) => sign !== undefined).join(", ")].flatMap((text) => (text === "" ? [] : [`  ${text}`])),
      ...(shown.length > 0 ? [`  colour codes not read: ${shown.join(", ")}`] : []),
    ]),
  ];
}

/** Classes of which all is kept are one line. */
function ledgerLines({ ledgers }: ImportReport): readonly string[] {
  return ledgers.flatMap(({ file, rows }) => {
    const whole = rows.filter((row) => row.leftOut.length === 0);
    const found = whole.reduce((sum, row) => sum + row.found, 0);
    const part = rows.filter((row) => row.leftOut.length > 0).map(ledgerText);
    const all = rows.reduce((sum, row) => sum + row.found, 0);
    return section(`Ledger of ${file}: use of its ${counted(all, "element")}`, [
      ...columns([
        ["class", "found", "kept", "left out", "why"],
        ...(whole.length === 0 ? [] : [[`${whole.length} classes kept whole`, String(found), String(found), "0"]]),
        ...part,
      ]),
    ]);
  });
}

function nameOfSign(delimiter: string | undefined): string | undefined {
  if (delimiter === undefined) return undefined;
  return new Map([
    [",", "commas"],
    [";", "semicolons"],
    ["\t", "tabs"],
  ]).get(delimiter);
}

function proposalLines({ proposals }: ImportReport): readonly string[] {
  const lines = proposals.flatMap(({ kind, text, evidence, otherwise, isAccepted }) => [
    `  ${kind}: ${text}`,
    `    ${isAccepted ? "Confirmed" : `${otherwise}. Because of: ${evidence.join("; ")}`}`,
  ]);
  return section("Questions. Confirm a sort with --accept SORT, or --accept all", lines);
}

function pairLines({ pairs, files }: ImportReport): readonly string[] {
  const number = (file: string): string => {
    const at = files.findIndex((each) => each.name === file) + 1;
    return files.length > 1 ? `${at}/` : "";
  };
  const rows = pairs.slice(0, 30).map(({ first, second, why }) => {
    return [`${number(first.file)}${first.connector}=${number(second.file)}${second.connector}`, why];
  });
  return section("Connectors that may mate. Confirm each with --mate; the others stay separate", columns(rows));
}
