import { defined } from "../../base/index.ts";
import { blockName, type BlockName } from "./block-name.ts";
import { columnLooks, looksLikePin } from "./cell-looks.ts";
import type { ProposedMapping, TableMapping } from "./columns.ts";
import { recallMapping, type MappingMemory } from "./mapping-memory.ts";
import { missingFrom, proposeMapping } from "./propose-mapping.ts";
import { readHeading, type HeadingReading } from "./read-heading.ts";
import type { Table, TableRow } from "./table.ts";
import type { TableOptions } from "./table-options.ts";

/** One table of a sheet or file: a sheet may hold several, under each other or side by side. */
export interface Block {
  readonly table: Table;
  /** Row of the headings; undefined where there are none. */
  readonly headingRow?: number;
  /** Headings by column; empty outside the block. */
  readonly headings: readonly string[];
  readonly mapping: TableMapping;
  readonly proposed: ProposedMapping;
  readonly rows: readonly TableRow[];
  /** What the block is called by a text beside it. */
  readonly name?: BlockName;
  /** Names that rows inside the block give to the rows below them, by the row they begin at. */
  readonly groups: ReadonlyMap<number, BlockName>;
  /** Columns of the block: the first, and the one after the last. */
  readonly window: readonly [from: number, to: number];
}

/** What a table falls into. */
export interface BlocksFound {
  readonly blocks: readonly Block[];
  /** Rows that belong to no block: titles, sign-off lines, remarks. */
  readonly loose: readonly TableRow[];
}

/**
 * Finds the tables of a sheet: by their rows of headings, side by side where columns or headings say so, without headings where the cells
 * leave no doubt.
 *
 * @param table The sheet or file.
 * @param options What a person has said; a given mapping or heading row makes one block of the rows below, one known for the headings of a
 *   block is that of the block.
 */
export function findBlocks(table: Table, options: TableOptions): BlocksFound {
  if (options.mapping || options.headingRow !== undefined) return givenBlock(table, options);
  const { blocks, loose } = foundBlocks(table);
  return { blocks: blocks.map((block) => asKnown(block, options.known ?? [])), loose };
}

/** A block with the mapping that is known for its headings; the one proposed where none is, or where it is the same. */
function asKnown(block: Block, known: MappingMemory): Block {
  const mapping = recallMapping(known, block.headings);
  const { shape, columns } = block.mapping;
  const isOther = mapping && JSON.stringify(mapping) !== JSON.stringify({ shape, columns });
  return isOther ? { ...block, mapping } : block;
}

function foundBlocks(table: Table): BlocksFound {
  const { rows } = table;
  const heads = rows.flatMap((row, at) => (isHeadingRow(row, rows.slice(at + 1, at + 6)) ? [at] : []));
  // A row of headings right above another one groups the columns of that.
  const own = heads.filter((at) => !heads.includes(at + 1));
  if (own.length === 0) return blockWithoutHeadings(table);
  const blocks: Block[] = [];
  const loose: TableRow[] = [];
  let end = 0;
  for (const [number, at] of own.entries()) {
    const upper = upperRow(rows, at, heads);
    const first = titleStart(rows, upper === undefined ? at : at - 1, end);
    const titles = rows.slice(number === 0 ? 0 : first, upper === undefined ? at : at - 1);
    end = at + 1;
    const next = own[number + 1];
    const last =
      next === undefined
        ? rows.length
        : titleStart(rows, upperRow(rows, next, heads) === undefined ? next : next - 1, end);
    const before = blocks.at(-1);
    const given: HeadedRows = { table, at, upper, titles, rows: rows.slice(at + 1, last), ...defined({ before }) };
    const found = headedBlocks(given);
    blocks.push(...found.blocks);
    loose.push(...(number === 0 || found.blocks.length === 0 ? titles : []), ...found.loose);
    end = last;
  }
  return blocks.length > 0 ? { blocks, loose } : blockWithoutHeadings(table);
}

/** The one block that a person has described. */
function givenBlock(table: Table, { headingRow, mapping }: TableOptions): BlocksFound {
  const { rows } = table;
  const found = rows.findIndex((row, at) =>
    headingRow === undefined ? isHeadingRow(row, rows.slice(at + 1, at + 6)) : row.row === headingRow,
  );
  // A mapping without any headings that are understood is meant for the rows below the first.
  const at = found < 0 && mapping && headingRow === undefined ? 0 : found;
  const head = rows[at];
  if (!head) return { blocks: [], loose: rows };
  const below = rows.slice(at + 1);
  const proposed = proposeMapping(
    head.cells,
    below.map((row) => row.cells),
  );
  const width = Math.max(head.cells.length, ...below.slice(0, 200).map((row) => row.cells.length));
  const block: Block = {
    ...{ table, headings: head.cells, proposed, mapping: mapping ?? proposed, rows: below },
    ...{ headingRow: head.row, groups: new Map<number, BlockName>(), window: [0, width] as const },
    ...defined({ name: titleOf(rows.slice(0, at), [0, width]) }),
  };
  return { blocks: [block], loose: rows.slice(0, at) };
}

const filledCells = ({ cells }: TableRow): readonly string[] =>
  cells.flatMap((cell) => (cell.trim() === "" ? [] : [cell.trim()]));

/** Topics of which a row of headings has at least one. */
const KEY_TOPICS: ReadonlySet<string> = new Set([
  "pin",
  "connector",
  "component",
  "point",
  "end",
  "ends",
  "net",
  "wire",
  "function",
]);

/** Whether a row holds headings: known words over most of its cells, no numbers, and none that come back below as data. */
function isHeadingRow(row: TableRow, below: readonly TableRow[]): boolean {
  const filled = filledCells(row);
  const [first = "", second = "", third = ""] = filled;
  if (filled.length < 2 || ![first, second, third].some((text) => readHeading(text))) return false;
  if (filled.some((text) => /^[\d.,]+$/u.test(text))) return false;
  const readings = filled.flatMap((text): HeadingReading | readonly HeadingReading[] => readHeading(text) ?? []);
  const sure = readings.filter((reading) => reading.score >= 0.85);
  const topics = new Set(sure.map(({ topic, end }) => `${topic} ${end ?? ""}`));
  if (topics.size < 2 && sure.length < 4) return matrixHeads(row, below) !== undefined;
  if (!sure.some(({ topic }) => KEY_TOPICS.has(topic))) return false;
  if (sure.length * 2 < filled.length && matrixHeads(row, below) === undefined) return false;
  // A row of the same text in the same column is data, unless the whole row comes back.
  const isAgain = (text: string, column: number): boolean =>
    below.some(({ cells }) => cells[column]?.trim() === text && !sameCells(cells, row.cells));
  const again = row.cells.filter((cell, column) => cell.trim() !== "" && isAgain(cell.trim(), column)).length;
  return again * 2 < filled.length;
}

function sameCells(first: readonly string[], second: readonly string[]): boolean {
  return first.length === second.length && first.every((cell, at) => cell.trim() === second[at]?.trim());
}

/** The columns of a matrix by what heads them: pins or signals down, connectors across; undefined if a row heads no matrix. */
function matrixHeads(row: TableRow, below: readonly TableRow[]): "pins" | "signals" | undefined {
  const [corner = "", ...others] = row.cells.map((cell) => cell.trim());
  const heads = others.filter((text) => text !== "");
  const topic = readHeading(corner)?.topic;
  if (heads.length < 2 || below.length < 2 || new Set(heads).size < heads.length) return undefined;
  const isName = (text: string): boolean => ["component", undefined].includes(readHeading(text)?.topic);
  if (heads.some((text) => !isName(text) || !/\p{L}/u.test(text) || text.length > 24)) return undefined;
  const down = below.map(({ cells }) => cells[0] ?? "");
  const inside = below.flatMap(({ cells }) => cells.slice(1, row.cells.length)).filter((text) => text.trim() !== "");
  const pins = inside.filter((text) => looksLikePin(text)).length / Math.max(1, inside.length);
  if (topic === "net" && pins >= 0.9) return "signals";
  return topic === "pin" && down.every((text) => looksLikePin(text)) && pins < 0.5 ? "pins" : undefined;
}

/** Whether a row is a line of text and no data: one text, which is no pin. */
function isTextLine(row: TableRow): boolean {
  const texts = new Set(filledCells(row));
  const [only = ""] = texts;
  return texts.size === 1 && !looksLikePin(only) && /\p{L}{2}/u.test(only);
}

/** Where the lines of text begin that stand right above a row of headings. */
function titleStart(rows: readonly TableRow[], at: number, least: number): number {
  let first = at;
  while (first > least && isTitleLine(rows[first - 1], rows[first - 2])) first -= 1;
  return first;
}

/** A line with one text, or the names of tables side by side: a few texts with empty cells between. */
function isTitleLine(row: TableRow | undefined, before: TableRow | undefined): boolean {
  if (!row) return false;
  const texts = new Set(filledCells(row));
  const [only = ""] = texts;
  const isApart = before !== undefined && row.row - before.row > 1;
  if (texts.size === 1 && (isApart || !looksLikePin(only))) return true;
  const filled = row.cells.flatMap((cell, column) => (cell.trim() === "" ? [] : [column]));
  const isSpaced = filled.length > 1 && filled.every((column, at) => at === 0 || column - (filled[at - 1] ?? 0) > 2);
  return isSpaced && filled.every((column) => /\p{L}{2}/u.test(row.cells[column] ?? ""));
}

/** The texts of a row above the headings that says which end of a wire the columns below it speak of, one for each column. */
function upperRow(rows: readonly TableRow[], at: number, heads: readonly number[]): readonly string[] | undefined {
  const [row, head] = [rows[at - 1], rows[at]];
  if (!row || !head || row.row !== head.row - 1) return undefined;
  const filled: string[] = [];
  for (const [column, cell] of head.cells.entries()) {
    const text = row.cells[column]?.trim() ?? "";
    filled.push(text === "" && cell.trim() !== "" ? (filled[column - 1] ?? "") : text);
  }
  const ends = new Set(filled.flatMap((text) => readHeading(text)?.end ?? []));
  return ends.size === 2 && (heads.includes(at - 1) || filledCells(row).length < filledCells(head).length)
    ? filled
    : undefined;
}

interface HeadedRows {
  readonly table: Table;
  readonly at: number;
  readonly upper: readonly string[] | undefined;
  readonly titles: readonly TableRow[];
  readonly rows: readonly TableRow[];
  readonly before?: Block;
}

/** The blocks below one row of headings. */
function headedBlocks({ table, at, upper, titles, rows, before }: HeadedRows): BlocksFound {
  const head = table.rows[at];
  if (!head || rows.length === 0) return { blocks: [], loose: head ? [head] : [] };
  const matrix = matrixHeads(head, rows);
  if (matrix) return headedBlocks({ ...unfolded({ table, at, upper, titles, rows }, matrix), ...defined({ before }) });
  const headings = head.cells.map((cell, column) => {
    const over = upper?.[column] ?? "";
    return over !== "" && readHeading(over)?.end !== undefined && readHeading(cell)?.end === undefined
      ? `${over} ${cell}`
      : cell;
  });
  const windows = windowsOf(headings, rows);
  const names = windows.map((window) => titleOf(titles, window, windows.length > 1));
  const shared = windows.length > 1 ? titleOf(titles, [0, Infinity]) : undefined;
  const loose = new Set<TableRow>();
  const blocks = windows.map((window, number): Block => {
    const isRepeated = titles.length === 0 && before !== undefined;
    const name = names[number] ?? shared ?? (isRepeated ? before.name : undefined);
    return blockOf({ table, head, headings, rows, window }, name, loose);
  });
  return { blocks, loose: [...loose] };
}

interface WindowRows {
  readonly table: Table;
  readonly head: TableRow | undefined;
  readonly headings: readonly string[];
  readonly rows: readonly TableRow[];
  readonly window: readonly [number, number];
}

function blockOf(
  { table, head, headings, rows, window }: WindowRows,
  name: BlockName | undefined,
  loose: Set<TableRow>,
): Block {
  const [from, to] = window;
  const inside = headings.map((text, column) => (column >= from && column < to ? text : ""));
  const isAlone = from === 0 && to >= headings.length;
  const cellsOf = ({ cells }: TableRow): readonly string[] =>
    isAlone ? cells : cells.map((cell, column) => (column >= from && column < to ? cell : ""));
  const data: TableRow[] = [];
  const groups = new Map<number, BlockName>();
  const sample = rows.filter((row) => !isTextLine(row)).slice(0, 200);
  const proposed = proposeMapping(inside, sample.map(cellsOf));
  const has = (...fields: readonly string[]): boolean => proposed.columns.some(({ field }) => fields.includes(field));
  const isChart = proposed.shape === "pin" && !has("connector", "component", "point");
  // A row may give no more than the next point of a net, or the connector of the rows below it.
  const named = proposed.columns.filter(({ field }) => ["connector", "point", "ends"].includes(field));
  for (const row of rows) {
    const cells = cellsOf(row);
    const own = { ...row, cells };
    if (!isTextLine(own) || named.some(({ column }) => (cells[column] ?? "").trim() !== "")) data.push(own);
    else {
      loose.add(row);
      const group = isChart ? blockName(filledCells(own)[0] ?? "", "title") : undefined;
      if (group) groups.set(row.row, group);
    }
  }
  return {
    ...{ table, headings: inside, proposed, mapping: proposed, rows: data, groups, window },
    ...defined({ headingRow: head?.row, name }),
  };
}

/** Turns a matrix into rows of pin and connector, so that it is read as any other table. */
function unfolded(given: HeadedRows, matrix: "pins" | "signals"): HeadedRows {
  const { table, at, rows } = given;
  const head = table.rows[at];
  const headings = matrix === "pins" ? ["Connector", "Pin", "Signal"] : ["Net", "Connector", "Pin"];
  const made = rows.flatMap((row) => {
    const [corner = "", ...cells] = row.cells;
    return cells.flatMap((cell, column): readonly TableRow[] => {
      const connector = head?.cells[column + 1]?.trim() ?? "";
      if (connector === "" || corner.trim() === "" || (matrix === "signals" && cell.trim() === "")) return [];
      const { row: number, line } = row;
      return [
        {
          row: number,
          ...defined({ line }),
          cells: matrix === "pins" ? [connector, corner, cell] : [corner, connector, cell],
        },
      ];
    });
  });
  const top: TableRow = { row: head?.row ?? 1, cells: headings };
  return { ...given, table: { ...table, rows: [top, ...made] }, at: 0, upper: undefined, rows: made };
}

/** The columns of the tables that stand side by side below one row of headings. */
function windowsOf(headings: readonly string[], rows: readonly TableRow[]): readonly (readonly [number, number])[] {
  const width = Math.max(headings.length, ...rows.slice(0, 200).map(({ cells }) => cells.length));
  const whole = [[0, width] as const];
  const isEmpty = (column: number): boolean =>
    (headings[column] ?? "").trim() === "" &&
    rows.slice(0, 200).every(({ cells }) => (cells[column] ?? "").trim() === "");
  const cuts = headings.flatMap((_, column) => (isEmpty(column) ? [column] : []));
  const parts = [-1, ...cuts].map((cut, at): readonly [number, number] => [cut + 1, cuts[at] ?? width]);
  const isTable = ([from, to]: readonly [number, number]): boolean => {
    const topics = headings.slice(from, to).flatMap((text) => readHeading(text)?.topic ?? []);
    return to - from > 1 && (topics.includes("pin") || topics.includes("point"));
  };
  const tables = parts.filter(isTable);
  if (tables.length > 1) return tables.map(([from], at) => [from, tables[at + 1]?.[0] ?? width] as const);
  return repeatedWindows(headings) ?? whole;
}

/** `Pin, Signal, Pin, Signal`: the same headings several times, without a connector or an end among them. */
function repeatedWindows(headings: readonly string[]): readonly (readonly [number, number])[] | undefined {
  const plain = headings.map((text) => text.trim().toLowerCase());
  while (plain.at(-1) === "") plain.pop();
  for (let period = 2; period <= plain.length / 2; period++) {
    if (plain.length % period !== 0 || plain.some((text, at) => text !== plain[at % period])) continue;
    const readings = plain.slice(0, period).map((text) => readHeading(text));
    const topics = readings.map((reading) => reading?.topic);
    if (!topics.includes("pin") || topics.includes("connector") || topics.includes("component")) continue;
    if (readings.some((reading) => reading?.end !== undefined)) continue;
    return Array.from({ length: plain.length / period }, (_, at) => [at * period, (at + 1) * period] as const);
  }
  return undefined;
}

/** The name that the lines above give to the columns of a block: the nearest one with a designator, else the nearest. */
function titleOf(
  titles: readonly TableRow[],
  [from, to]: readonly [number, number],
  isOwn = false,
): BlockName | undefined {
  const names = titles.toReversed().flatMap(({ cells }) => {
    const texts = new Set(cells.slice(from, to).flatMap((cell) => (cell.trim() === "" ? [] : [cell.trim()])));
    const isElsewhere = cells.some((cell, column) => cell.trim() !== "" && (column < from || column >= to));
    const [only] = texts;
    // A line over several tables names a single one only where each has its own.
    return texts.size === 1 && only !== undefined && (!isOwn || isElsewhere) ? (blockName(only, "title") ?? []) : [];
  });
  return (
    names.find(({ text, connector }) => connector !== text && /\d/u.test(connector)) ??
    names.find(({ text }) => !/:\s*\S|\d{4}/u.test(text))
  );
}

/** A table without any headings. */
function blockWithoutHeadings(table: Table): BlocksFound {
  const rows = table.rows;
  if (rows.length < 2) return { blocks: [], loose: rows };
  const first = rows.findIndex((row) => !isTextLine(row));
  const body = rows.slice(Math.max(0, first));
  const width = Math.max(0, ...body.slice(0, 200).map(({ cells }) => cells.length));
  const head = foreignHead(body, width);
  const data = head ? body.slice(1) : body;
  const headings = head?.cells ?? Array.from({ length: width }, () => "");
  const loose = new Set<TableRow>(rows.slice(0, Math.max(0, first)));
  const name = titleOf([...loose], [0, Infinity]);
  const block = blockOf({ table, head, headings, rows: data, window: [0, width] }, name, loose);
  const fields = new Set(block.mapping.columns.map(({ field }) => field));
  if (missingFrom(block.mapping.shape, fields).length > 0 || fields.size < 2) return { blocks: [], loose: rows };
  return { blocks: [block], loose: [...loose] };
}

/** The first row, if its words say nothing and its cells do not look like those below: headings that are not understood. */
function foreignHead(rows: readonly TableRow[], width: number): TableRow | undefined {
  const [head, ...below] = rows;
  if (!head || below.length === 0) return undefined;
  const kinds = ["colour", "size", "length", "pin", "end"] as const;
  let against = 0;
  for (let column = 0; column < width; column++) {
    const [own, others] = [[head.cells[column] ?? ""], below.slice(0, 200).map(({ cells }) => cells[column] ?? "")].map(
      columnLooks,
    );
    if (!own || !others || own.filled === 0 || others.filled === 0) continue;
    const kind = kinds.find((each) => others[each] >= 0.8);
    if (kind !== undefined && own[kind] < 0.5) against += 1;
    if (kind !== undefined && own[kind] >= 0.5 && kind !== "pin") return undefined;
  }
  return against > 0 ? head : undefined;
}
