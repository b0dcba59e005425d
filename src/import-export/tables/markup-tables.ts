import { importProblem, type ImportProblem } from "../import-problem.ts";
import { err, ok, type Result } from "../../base/index.ts";
import { TABLE_LIMITS, type Table, type TableRow } from "./table.ts";

/** The line below the headings of a Markdown table. */
const RULE = /^\s*\|?\s*:?-+:?\s*(?:\|\s*:?-+:?\s*)*\|?\s*$/u;

/** Whether a text holds a Markdown table: a line of hyphens and bars below a line with bars. */
export function hasMarkdownTable(text: string): boolean {
  const lines = text.split(/\r?\n/u);
  return lines.some((line, at) => line.includes("|") && RULE.test(line) && (lines[at - 1] ?? "").includes("|"));
}

/**
 * Finds the tables of a Markdown text. Row numbers are those of the lines; what stands around a table is kept, and the heading above it
 * names it.
 *
 * @param text The text.
 * Source: GitHub Flavored Markdown Spec, section Tables (extension).
 */
export function markdownTables(text: string): Result<readonly Table[], readonly ImportProblem[]> {
  const lines = text.split(/\r?\n/u);
  const tables: Table[] = [];
  let [title, remarks]: [string, string[]] = ["", []];
  let rows: TableRow[] = [];
  const close = (): void => {
    if (rows.length > 0) tables.push({ rows, title, remarks });
    if (rows.length > 0) [rows, remarks] = [[], []];
  };
  for (const [at, line] of lines.entries()) {
    const isRow = line.includes("|") && (rows.length > 0 || RULE.test(lines[at + 1] ?? ""));
    if (isRow && !RULE.test(line)) rows.push({ row: at + 1, line: at + 1, cells: cellsOf(line) });
    if (isRow) continue;
    close();
    const heading = /^\s{0,3}#{1,6}\s+(.*?)\s*#*\s*$/u.exec(line)?.[1] ?? /^\s*\*\*(.+)\*\*:?\s*$/u.exec(line)?.[1];
    if (heading !== undefined) title = plain(heading);
    else if (/^\s*[-=*_]{3,}\s*$/u.test(line) || line.trim() === "") continue;
    else remarks.push(line.trim());
  }
  close();
  const last = tables.at(-1);
  if (last && remarks.length > 0)
    tables[tables.length - 1] = { ...last, remarks: [...(last.remarks ?? []), ...remarks] };
  return judged(tables);
}

function cellsOf(line: string): readonly string[] {
  const bars = line
    .trim()
    .replace(/^\|/u, "")
    .replace(/(?<!\\)\|$/u, "");
  return bars.split(/(?<!\\)\|/u).map((cell) => plain(cell.replaceAll("\\|", "|")));
}

/** A text without the signs for bold, code and links. */
function plain(text: string): string {
  return text
    .replace(/\[([^\]]*)\]\([^)]*\)/gu, "$1")
    .replace(/\*\*|__|`/gu, "")
    .replace(/<br\s*\/?>/giu, " ")
    .trim();
}

const ENTITIES: Readonly<Record<string, string>> = {
  ...{
    amp: "&",
    lt: "<",
    gt: ">",
    quot: '"',
    apos: "'",
    nbsp: " ",
    sup2: "²",
    deg: "°",
    ndash: "–",
    mdash: "—",
    rarr: "→",
  },
};

function textOf(html: string): string {
  return html
    .replace(/<br\s*\/?>/giu, " ")
    .replace(/<[^>]*>/gu, "")
    .replace(/&#(x?)([0-9a-f]{1,6});/giu, (whole, hex: string, digits: string) => {
      const code = Number.parseInt(digits, hex === "" ? 10 : 16);
      return code > 31 && code < 0x110000 ? String.fromCodePoint(code) : whole;
    })
    .replace(/&([a-z]+\d?);/giu, (whole, name: string) => ENTITIES[name.toLowerCase()] ?? whole)
    .replace(/\s+/gu, " ")
    .trim();
}

/** A piece of a page that matters for its tables. */
const PIECES =
  /<h[1-6][^>]*>[\s\S]*?<\/h[1-6]>|<table[\s>]|<\/table>|<caption[^>]*>[\s\S]*?<\/caption>|<tr[\s>]|<t[dh](?=[\s>])[^>]*>[\s\S]*?(?=<\/?t[dhr][\s>]|<\/table>|<\/tbody>|<\/thead>)/giu;

/**
 * Finds the tables of an HTML page. Rows are counted through all of them. A heading or caption above a table names it; cells that span several rows or columns are filled in. Nothing
 * of the page is run or fetched.
 *
 * @param html The page.
 * Source: HTML Living Standard, section "Tabular data".
 */
export function htmlTables(html: string): Result<readonly Table[], readonly ImportProblem[]> {
  const tables: Table[] = [];
  const bare = html.replace(/<!--[\s\S]*?-->|<(script|style)[\s>][\s\S]*?<\/\1>/giu, "");
  let [title, before] = ["", 0];
  let grid: string[][] | undefined;
  let [row, column] = [-1, 0];
  const put = (piece: string): void => {
    if (!grid || row < 0) return;
    const span = (name: string): number =>
      Math.min(500, Math.max(1, Number(new RegExp(`${name}\\s*=\\s*["']?(\\d{1,4})`, "iu").exec(piece)?.[1] ?? 1)));
    while (grid[row]?.[column] !== undefined) column += 1;
    const text = textOf(piece.replace(/^<[^>]*>/u, ""));
    for (let down = 0; down < span("rowspan"); down++)
      for (let along = 0; along < span("colspan"); along++) (grid[row + down] ??= [])[column + along] = text;
    column += span("colspan");
  };
  for (const [piece] of bare.matchAll(PIECES)) {
    if (/^<(?:h\d|caption)/iu.test(piece)) title = textOf(piece);
    else if (/^<table/iu.test(piece)) [grid, row] = [[], -1];
    else if (/^<tr/iu.test(piece)) [row, column] = [row + 1, 0];
    else if (/^<\/table/iu.test(piece) && grid) {
      const rows = grid.slice(0, row + 1).map((cells, at) => ({
        row: before + at + 1,
        cells: Array.from({ length: cells.length }, (_, column) => cells[column] ?? ""),
      }));
      tables.push({ rows: rows.filter(({ cells }) => cells.some((cell) => cell !== "")), title });
      [grid, title, before] = [undefined, "", before + rows.length];
    } else put(piece);
  }
  return judged(tables);
}

/** The tables, if they are within the caps. */
function judged(tables: readonly Table[]): Result<readonly Table[], readonly ImportProblem[]> {
  const { mostRows, mostColumns, longestCell } = TABLE_LIMITS;
  for (const { rows } of tables) {
    if (rows.length > mostRows) return err([importProblem("too-many-rows", {}, { limit: mostRows })]);
    for (const { row, cells } of rows) {
      if (cells.length > mostColumns)
        return err([importProblem("too-many-columns", { row }, { columns: cells.length, limit: mostColumns })]);
      const long = cells.find((cell) => cell.length > longestCell);
      if (long !== undefined)
        return err([importProblem("cell-too-long", { row }, { length: long.length, limit: longestCell })]);
    }
  }
  return ok(tables.filter(({ rows }) => rows.length > 0));
}
