import { defined, err, ok, type Result } from "../../base/index.ts";
import { importProblem, type ImportPlace, type ImportProblem } from "../import-problem.ts";
import {
  PIN_TABLE_COLUMNS,
  type TableShape,
  type ProposedMapping,
  type TableMapping,
  type ColumnField,
  type MappedColumn,
  END_WORDS,
  HEADING_WORDS,
  type HeadingTopic,
  readUnit,
  unitSort,
  type Unit,
} from "./columns.ts";
import type { TableOptions } from "./table-options.ts";
import type { Table, TableRow } from "./table.ts";

/** The heading row of a table and how its columns are understood. */
export interface Headings {
  /** Row from 1. */
  readonly row: number;
  readonly texts: readonly string[];
  /** The mapping to be used: the one given, or the one proposed. */
  readonly mapping: TableMapping;
  readonly proposed: ProposedMapping;
}

/** Tables often have a title and a date above the headings. */
const MOST_ROWS_ABOVE = 25;

/**
 * Finds the row of headings and what the columns mean.
 *
 * @param options What a person has said; a given mapping is checked against the table.
 */
export function findHeadings(table: Table, options: TableOptions): Result<Headings, readonly ImportProblem[]> {
  const place: ImportPlace = defined({ sheet: table.sheet });
  const candidates =
    options.headingRow === undefined
      ? table.rows.slice(0, MOST_ROWS_ABOVE)
      : table.rows.filter((row) => row.row === options.headingRow);
  let best: { row: TableRow; proposed: ProposedMapping; weight: number } | undefined;
  for (const row of candidates) {
    const proposed = proposeMapping(row.cells);
    const weight = (proposed.missing.length === 0 ? 100 : 0) + proposed.columns.length * (0.5 + proposed.score);
    if (!best || weight > best.weight) best = { row, proposed, weight };
  }
  const wanted = missingFrom("pin", new Set()).join(" and ");
  if (!best) return err([importProblem("headings-unknown", place, { missing: wanted })]);
  const { row, proposed } = best;
  if (options.mapping) {
    const fault = mappingFault(options.mapping, row.cells.length);
    if (fault !== undefined)
      return err([importProblem("mapping-wrong", { ...place, row: row.row }, { reason: fault })]);
  } else if (proposed.missing.length > 0) {
    const missing = proposed.columns.length === 0 ? wanted : proposed.missing.join(" and ");
    return err([importProblem("headings-unknown", { ...place, row: row.row }, { missing })]);
  }
  if (!table.rows.some((each) => each.row > row.row)) {
    const headings = row.cells.filter((cell) => cell.trim() !== "").length;
    return err([importProblem("table-no-rows", { ...place, row: row.row }, { headings })]);
  }
  return ok({ row: row.row, texts: row.cells, mapping: options.mapping ?? proposed, proposed });
}

/** What is wrong with a mapping for a table of so many columns; undefined if nothing is. */
function mappingFault(mapping: TableMapping, width: number): string | undefined {
  const seen = new Set<string>();
  for (const { column, field } of mapping.columns) {
    const known = PIN_TABLE_COLUMNS.find((each) => each.field === field);
    if (!known) return `there is no field "${field as string}"`;
    if (!known.shapes.includes(mapping.shape))
      return `"${field}" does not belong in a table with a row for each ${mapping.shape}`;
    if (!Number.isInteger(column) || column < 0 || column >= width) return `column ${column + 1} is not there`;
    if (seen.has(field)) return `"${field}" is given twice`;
    seen.add(field);
  }
  const missing = missingFrom(mapping.shape, seen);
  return missing.length > 0 ? `a column is missing for ${missing.join(" and ")}` : undefined;
}

/** Warnings about headings that stand twice, columns nothing is taken from, and rows that go on beyond the headings. */
export function headingWarnings(table: Table, headings: Headings): readonly ImportProblem[] {
  const problems: ImportProblem[] = [];
  const place: ImportPlace = { ...defined({ sheet: table.sheet }), row: headings.row };
  const columns = new Map<string, number[]>();
  headings.texts.forEach((text, column) => {
    const key = text.trim().toLowerCase();
    if (key !== "") columns.set(key, [...(columns.get(key) ?? []), column + 1]);
  });
  for (const [heading, at] of columns) {
    if (at.length > 1) problems.push(importProblem("heading-twice", place, { heading, columns: at.join(", ") }));
  }
  const mapped = new Set(headings.mapping.columns.map((each) => each.column));
  const unmapped = headings.texts.filter((text, column) => text.trim() !== "" && !mapped.has(column));
  if (unmapped.length > 0)
    problems.push(importProblem("column-unmapped", place, { headings: unmapped.slice(0, 20).join(", ") }));
  const width = headings.texts.length;
  for (const { row, line, cells } of table.rows) {
    if (row <= headings.row || cells.length <= width || cells.slice(width).every((cell) => cell.trim() === ""))
      continue;
    const at = { ...place, row, ...defined({ line }) };
    problems.push(importProblem("row-too-long", at, { cells: cells.length, headings: width }));
    if (problems.length > 50) break;
  }
  return problems;
}

interface Candidate {
  readonly column: number;
  readonly field: ColumnField;
  readonly score: number;
  readonly reading: HeadingReading;
}

/**
 * Proposes what each column of a table holds, from its headings alone. A heading that comes twice stands for the two ends of a wire
 * where that makes sense (`Connector, Pin, ..., Connector, Pin`); otherwise the first one counts.
 *
 * @param headings The cells of the heading row.
 * @returns The mapping with its score; what a table of its shape needs at least and does not have is listed as missing.
 * @example
 * ```ts
 * import { proposeMapping } from "ohmward/import-export";
 * const proposed = proposeMapping(["Leitung", "Von", "Nach", "Farbe", "Querschnitt [mm²]", "Preis"]);
 * expect(proposed.columns.map((each) => each.field)).toEqual(["wire", "from", "to", "colour", "crossSection"]);
 * expect(proposed.unmapped).toEqual([5]);
 * ```
 */
export function proposeMapping(headings: readonly string[]): ProposedMapping {
  const candidates = splitEnds(headings);
  const shape = shapeOf(candidates);
  const allowed = new Set<string>(
    PIN_TABLE_COLUMNS.flatMap((each) => (each.shapes.includes(shape) ? [each.field] : [])),
  );
  const taken = new Map<ColumnField, Candidate>();
  for (const each of candidates.toSorted((one, two) => two.score - one.score || one.column - two.column))
    if (allowed.has(each.field) && !taken.has(each.field)) taken.set(each.field, each);
  const chosen = [...taken.values()].sort((one, two) => one.column - two.column);
  const columns = chosen.map(({ column, field, reading }): MappedColumn => {
    const hasUnit = field === "length" || field === "crossSection" || field === "terminalSize";
    return hasUnit && reading.unit !== undefined ? { column, field, unit: reading.unit } : { column, field };
  });
  const mapped = new Set(columns.map((each) => each.column));
  const missing = missingFrom(shape, new Set(taken.keys()));
  const mean = chosen.reduce((sum, each) => sum + each.score, 0) / Math.max(1, chosen.length);
  return {
    shape,
    columns,
    score: missing.length > 0 ? 0 : mean,
    missing,
    columnScores: new Map(chosen.map((each) => [each.column, each.score])),
    unmapped: headings.flatMap((heading, column) => (heading.trim() === "" || mapped.has(column) ? [] : [column])),
  };
}

/** Reads the headings; where connector or pin comes twice without a word on the end, first and second are the ends. */
function splitEnds(headings: readonly string[]): readonly Candidate[] {
  const readings = headings.map((heading) => readHeading(heading));
  const columnsOfTopic = (wanted: string): readonly number[] =>
    readings.flatMap((reading, column) => (reading?.topic === wanted && reading.end === undefined ? [column] : []));
  const [pins, connectors] = [columnsOfTopic("pin"), columnsOfTopic("connector")];
  const isSplit = isTwice(headings, pins) || (pins.length === 0 && isTwice(headings, connectors));
  const seen = new Set<string>();
  return readings.flatMap((reading, column): Candidate[] => {
    if (!reading) return [];
    const { topic } = reading;
    const isEnd = isSplit && reading.end === undefined && ["component", "connector", "half", "pin"].includes(topic);
    const field = fieldOf(topic, isEnd ? (seen.has(topic) ? "to" : "from") : reading.end);
    if (isEnd) seen.add(topic);
    return field === undefined ? [] : [{ column, field, score: reading.score, reading }];
  });
}

/** Whether the same heading stands over just two columns. */
function isTwice(headings: readonly string[], columns: readonly number[]): boolean {
  const [first, second] = columns.map((column) => headings[column]?.trim().toLowerCase());
  return columns.length === 2 && first === second;
}

function shapeOf(candidates: readonly Candidate[]): TableShape {
  const fields = new Set<string>(candidates.map((candidate) => candidate.field));
  const has = (...names: readonly string[]): boolean => names.some((name) => fields.has(name));
  return has("from", "fromConnector", "fromComponent", "fromPin") && has("to", "toConnector", "toComponent", "toPin")
    ? "wire"
    : "pin";
}

/** What a table of a shape cannot do without and a set of fields does not have, in words. */
function missingFrom(shape: TableShape, fields: ReadonlySet<string>): readonly string[] {
  const missing: string[] = [];
  const need = (what: string, ...names: readonly string[]): void => {
    if (!names.some((name) => fields.has(name))) missing.push(what);
  };
  if (shape === "wire") {
    need("the first end of the wire", "from", "fromConnector", "fromComponent");
    need("the other end of the wire", "to", "toConnector", "toComponent");
  } else {
    need("the connector", "connector", "component");
    need("the pin", "pin");
  }
  return missing;
}

/** What a heading may mean, with how sure that is, from 0 to 1. */
interface HeadingReading {
  readonly topic: HeadingTopic | "end";
  /** Which end of a wire is meant, if the heading says so. */
  readonly end?: "from" | "to";
  readonly unit?: Unit;
  readonly score: number;
}

const list = (text: string): readonly string[] => text.split(",").map((word) => word.trim().replace(/\s+/gu, " "));
const TOPICS: ReadonlyMap<string, HeadingTopic> = new Map(
  (Object.entries(HEADING_WORDS) as [HeadingTopic, string][]).flatMap(([topic, words]) =>
    list(words).map((word): [string, HeadingTopic] => [word, topic]),
  ),
);
const FROM = list(END_WORDS.from);
const TO = list(END_WORDS.to);
/** Words that may stand beside the word that counts. */
const FILLERS: ReadonlySet<string> = new Set([
  ..."no nr num number nummer numero id name code kod the n ref der die das des du la le el il of de del no1".split(
    " ",
  ),
]);

/** Reads one heading, such as `Querschnitt [mm²]`; capitals, accents and signs do not matter. Undefined if no word of it is known. */
function readHeading(heading: string): HeadingReading | undefined {
  const unit = unitIn(heading);
  const words = plainWords(heading);
  if (words === "") return unit === undefined ? undefined : ofUnit(unit);
  const whole = topicOf(words);
  if (whole?.topic === "pin" && unit !== undefined && unitSort(unit) === "length")
    return { topic: "terminalSize", unit, score: whole.score };
  if (whole) return { ...whole, ...defined({ unit }) };
  const directed = withEnd(words);
  if (directed) return directed;
  const loose = words.split(" ").flatMap((word) => TOPICS.get(word) ?? [])[0];
  if (loose) return { topic: loose, score: 0.6, ...defined({ unit }) };
  return unit === undefined ? undefined : ofUnit(unit);
}

const END_SUFFIXES: ReadonlyMap<string, "Type" | "Component" | "Connector" | "Half" | "Pin"> = new Map([
  ...([
    ["type", "Type"],
    ["component", "Component"],
    ["connector", "Connector"],
  ] as const),
  ...([
    ["splice", "Connector"],
    ["half", "Half"],
    ["pin", "Pin"],
  ] as const),
]);

/** The field of a table that a topic stands for, once the end is known. */
function fieldOf(topic: HeadingReading["topic"], end: "from" | "to" | undefined): ColumnField | undefined {
  if (topic === "end") return end;
  if (end === undefined) return topic;
  const suffix = END_SUFFIXES.get(topic);
  return suffix && `${end}${suffix}`;
}

function ofUnit(unit: Unit): HeadingReading {
  return { topic: unitSort(unit), unit, score: 0.7 };
}

function topicOf(words: string): { topic: HeadingTopic; score: number } | undefined {
  const exact = TOPICS.get(words);
  if (exact) return { topic: exact, score: 1 };
  const bare = words.split(" ").filter((word) => !FILLERS.has(word));
  const known = TOPICS.get(bare.join(" "));
  return known && { topic: known, score: 0.9 };
}

/** A heading that names an end: `from pin`, `Pin A`, `nach`, `connector 2`. */
function withEnd(words: string): HeadingReading | undefined {
  for (const [end, signs, letters] of [
    ["from", FROM, ["a", "1"]],
    ["to", TO, ["b", "2"]],
  ] as const) {
    if (signs.includes(words)) return { topic: "end", end, score: 1 };
    const sign = signs.find((each) => words.startsWith(`${each} `) || words.endsWith(` ${each}`));
    const letter = letters.find((each) => words.endsWith(` ${each}`));
    const found = sign ?? letter;
    if (found === undefined) continue;
    const rest = words.startsWith(`${found} `) ? words.slice(found.length + 1) : words.slice(0, -found.length - 1);
    const topic = topicOf(rest);
    if (topic) return { ...topic, end, score: topic.score * 0.98 };
  }
  return undefined;
}

function plainWords(heading: string): string {
  return heading
    .replace(/[([{][^)\]}]*[)\]}]/gu, " ")
    .toLowerCase()
    .replaceAll("ß", "ss")
    .replaceAll("mm²", "mm2")
    .normalize("NFD")
    .replace(/\p{M}/gu, "")
    .replaceAll("ø", "o")
    .replace(/[^\p{L}\p{N}]+/gu, " ")
    .trim();
}

/** A unit in brackets, or as the last word after a comma, slash or `in`. */
function unitIn(heading: string): Unit | undefined {
  const bracketed = /[([{]\s*([^)\]}]+?)\s*[)\]}]/u.exec(heading)?.[1];
  if (bracketed !== undefined) {
    const unit = readUnit(bracketed);
    if (unit) return unit;
  }
  const words = heading.trim().split(/[\s,/_]+/u);
  const last = words.at(-1) ?? "";
  // A single letter at the end is as likely a mark of the end of a wire.
  return last.length > 1 || words.length === 1 ? readUnit(last) : undefined;
}

/** One mapping that a person has confirmed, kept for the next table with the same headings. */
export interface RememberedMapping {
  readonly headings: readonly string[];
  readonly mapping: TableMapping;
}

/** Confirmed mappings, newest first; plain data to be stored wherever the caller stores things. */
export type MappingMemory = readonly RememberedMapping[];

/** Most mappings that are kept. */
const MOST_KEPT = 200;

/**
 * Keeps a confirmed mapping for the next table with the same headings in the same order.
 *
 * @param memory What is kept so far; it is not changed.
 * @param headings The headings of the table.
 * @param mapping The mapping as confirmed.
 * @returns The memory with this mapping first.
 * @example
 * ```ts
 * import { recallMapping, rememberMapping, type TableMapping } from "ohmward/import-export";
 * const mapping: TableMapping = { shape: "wire", columns: [{ column: 0, field: "from" }, { column: 1, field: "to" }] };
 * const memory = rememberMapping([], ["A", "B"], mapping);
 * expect(recallMapping(memory, [" a", "B "])).toEqual(mapping);
 * expect(recallMapping(memory, ["B", "A"])).toBeUndefined();
 * ```
 */
export function rememberMapping(
  memory: MappingMemory,
  headings: readonly string[],
  mapping: TableMapping,
): MappingMemory {
  const key = keyOf(headings);
  const others = memory.filter((each) => keyOf(each.headings) !== key);
  return [{ headings: [...headings], mapping }, ...others].slice(0, MOST_KEPT);
}

/** The mapping kept for these headings; capitals and blanks do not matter. Undefined if there is none. */
export function recallMapping(memory: MappingMemory, headings: readonly string[]): TableMapping | undefined {
  const key = keyOf(headings);
  return memory.find((each) => keyOf(each.headings) === key)?.mapping;
}

function keyOf(headings: readonly string[]): string {
  return JSON.stringify(headings.map((heading) => heading.trim().toLowerCase()));
}
