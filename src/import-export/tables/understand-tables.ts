import { defined, numberWays, type DecimalSign } from "../../base/index.ts";
import { importProblem, type ImportProblem } from "../import-problem.ts";
import type { Delimiter } from "../csv.ts";
import { blockName, type BlockName } from "./block-name.ts";
import { findEndSeparator, splitArrow, splitPoints } from "./cell-looks.ts";
import type { ColumnField } from "./columns.ts";
import { findBlocks, type Block } from "./find-blocks.ts";
import { pinOwner } from "./read-heading.ts";
import { proposalsOf, schemeOfColours, unitOfSizes } from "./propose-for-table.ts";
import type { EntryContext } from "./join-rows.ts";
import { readRows } from "./read-rows.ts";
import { rowText } from "./repair-tables.ts";
import type { Table } from "./table.ts";
import type { ColourScheme, TableOptions } from "./table-options.ts";
import type { TableProposal } from "./table-proposal.ts";
import {
  END_FIELDS,
  endTextOf,
  fieldColumns,
  fieldsToFill,
  isBareList,
  PointNamer,
  rowRecords,
  splitEnd,
  type KnownNames,
  type ReadBlock,
  type TableEntries,
} from "./table-rows.ts";
import type { FieldColumn, RowRecord } from "./row-record.ts";

/** The tables of a file, ready to be understood. */
export interface LoadedTables {
  readonly tables: readonly Table[];
  readonly warnings: readonly ImportProblem[];
  readonly encoding?: string;
  readonly delimiter?: Delimiter;
  /** Names of the visible sheets of a workbook. */
  readonly sheets?: readonly string[];
}

/** What tables say, before it becomes a document. */
export interface UnderstoodTables {
  readonly blocks: readonly ReadBlock[];
  readonly entries: TableEntries;
  readonly optionLabels: ReadonlyMap<string, string>;
  readonly problems: readonly ImportProblem[];
  readonly proposals: readonly TableProposal[];
  /** Text of the file that became nothing else. */
  readonly notes: readonly string[];
  readonly decimal: DecimalSign | undefined;
  /** What the colour codes were read by. */
  readonly colours: ColourScheme;
  /** The unit that a person has accepted for sizes without one. */
  readonly sizeUnit?: "mm2" | "AWG";
}

/**
 * Reads the tables of a file by the meaning of their columns, in steps that tell the share done.
 *
 * @param loaded The tables.
 * @param options What a person has said.
 * @param given Name of the file, and how many rows of each block to read at most; absent means all.
 */
export function* understandTables(
  { tables }: LoadedTables,
  options: TableOptions,
  given: { readonly fileName: string; readonly mostRows?: number },
): Generator<number, UnderstoodTables, void> {
  const problems: ImportProblem[] = [];
  const notes: string[] = [];
  const found = tables.map((table) => findBlocks(table, options));
  const blocks = found.flatMap((each) => each.blocks);
  for (const each of found) tellLoose(each, { problems, notes });
  for (const table of tables) notes.push(...(table.remarks ?? []));
  const read = readBlocks(blocks, given.fileName);
  problems.push(...assumptions(read));
  const records = read.flatMap((each) => each.records.map((record) => ({ record, columns: each.columns })));
  const sizes = sizesWithoutUnit(records);
  const colours = records.map(({ record }) => coloursOf(record)).filter((text) => text !== "");
  const scheme = schemeOfColours([...new Set(colours)]);
  const accepted = options.accept?.has("colour-codes") === true ? scheme?.scheme : undefined;
  const decimal = options.decimal ?? decimalOf(records.map(({ record }) => record));
  const context: EntryContext = {
    ...{ decimal, namer: new PointNamer(options, knownNames(read)), withoutUnit: new Map(), optionLabels: new Map() },
    colours: options.colours ?? accepted ?? { kind: "iec-60757" },
    columns: new Map(),
    report: (problem) => problems.push(problem),
    unread: (text) => notes.push(text),
    ...defined({ sizeUnit: options.accept?.has("size-unit") === true ? sizes.unit : undefined }),
  };
  const entries = yield* readRows(read, context, given.mostRows);
  for (const [field, texts] of context.withoutUnit) {
    const column = read.flatMap((each) => each.columns.get(field)?.heading ?? [])[0] ?? field;
    problems.push(importProblem("unit-missing", { column }, { column, count: texts.length }));
  }
  const coloured = entries.wires.filter((wire) => wire.facts.colour !== undefined).length;
  if (options.colours === undefined && coloured > 0)
    problems.push(importProblem("colour-scheme-assumed", {}, { colours: coloured }));
  problems.push(...context.namer.problems());
  const proposals = proposalsOf({ entries, namer: context.namer, sizes, scheme }, options);
  const { optionLabels, sizeUnit } = context;
  const said = { decimal, colours: context.colours, ...defined({ sizeUnit }) };
  return { blocks: read, entries, optionLabels, problems, proposals, notes, ...said };
}

/** Rows that belong to no table: those above are the title of the file, any other is told. */
function tellLoose(
  { blocks, loose }: ReturnType<typeof findBlocks>,
  to: { readonly problems: ImportProblem[]; readonly notes: string[] },
): void {
  const [first] = blocks;
  const heading = first?.headingRow ?? first?.rows[0]?.row ?? Infinity;
  const groups = new Set(blocks.flatMap((block) => [...block.groups.keys()]));
  for (const row of loose) {
    const text = rowText(row);
    if (text === "" || groups.has(row.row)) continue;
    to.notes.push(row.row < heading ? text : `Row ${row.row}: ${text}`);
    if (!first || row.row < heading) continue;
    const at = { ...defined({ file: first.table.file, sheet: first.table.sheet, line: row.line }), row: row.row };
    to.problems.push(importProblem("row-ignored", at, { text: text.slice(0, 80) }));
  }
}

/** Gives each block its records, and the connector it is about where no column says that. */
function readBlocks(blocks: readonly Block[], fileName: string): readonly ReadBlock[] {
  const names = namesOfCharts(blocks, fileName);
  return blocks.map((block) => {
    const columns = fieldColumns(block);
    const records = rowRecords(block, columns);
    const name = names.get(block);
    const starts = [...block.groups].sort(([one], [two]) => one - two);
    const connector = (row: number): string =>
      name === undefined ? "" : (starts.findLast(([start]) => start < row)?.[1].connector ?? name);
    return {
      block,
      records,
      columns,
      connector,
      separator: separatorOf(records),
      isNetList: isNetList(block, columns),
    };
  });
}

/** The connector of each block that has no column for it: by its title, else the sheet, else the file. */
function namesOfCharts(blocks: readonly Block[], fileName: string): ReadonlyMap<Block, string> {
  const charts = blocks.filter(({ mapping }) => {
    const has = (field: ColumnField): boolean => mapping.columns.some((each) => each.field === field);
    return mapping.shape === "pin" && has("pin") && !has("connector") && !has("component");
  });
  const nameOf = (block: Block): BlockName | undefined =>
    block.name ??
    ownerOfPins(block) ??
    blockName(block.table.title ?? "", "title") ??
    blockName(block.table.sheet ?? "", "sheet") ??
    blockName(block.table.file ?? fileName, "file");
  const named = charts.map((block) => ({ block, name: nameOf(block), pins: pinsOf(block) }));
  const made = new Map<Block, string>();
  for (const { block, name, pins } of named) {
    const own = name?.connector ?? "connector";
    // One designator in two different texts is two connectors.
    const isShared = named.some((each) => each.name?.connector === own && each.name.text !== name?.text);
    const wanted = isShared ? (name?.text ?? own) : own;
    const isTaken = (text: string): boolean =>
      named.some((each) => made.get(each.block) === text && [...each.pins].some((pin) => pins.has(pin)));
    let [text, number] = [wanted, 2];
    while (block.name === undefined && isTaken(text)) text = `${wanted}-${number++}`;
    made.set(block, text);
  }
  return made;
}

/** The connector that the heading of the pins names, as `ECU pin` does. */
function ownerOfPins({ mapping, headings }: Block): BlockName | undefined {
  const heading = headings[mapping.columns.find(({ field }) => field === "pin")?.column ?? -1] ?? "";
  const connector = pinOwner(heading);
  return connector === undefined ? undefined : { text: heading, connector, from: "title" };
}

function pinsOf({ mapping, rows }: Block): ReadonlySet<string> {
  const column = mapping.columns.find(({ field }) => field === "pin")?.column ?? -1;
  return new Set(rows.map(({ cells }) => cells[column]?.trim() ?? "").filter((pin) => pin !== ""));
}

/** A table of nets and points only, each net with several rows or several points in a cell. */
function isNetList(block: Block, columns: ReadonlyMap<ColumnField, FieldColumn>): boolean {
  const fields = [...columns.keys()];
  const [net, point] = [columns.get("net"), columns.get("point") ?? columns.get("pin")];
  if (block.mapping.shape !== "pin" || !net || !point || !isBareList(fields)) return false;
  if (fieldsToFill(block, columns).includes("net")) return true;
  const names = block.rows.map(({ cells }) => cells[net.column]?.trim() ?? "");
  const points = block.rows.map(({ cells }) => splitPoints(cells[point.column] ?? ""));
  if (columns.has("point") && points.filter((each) => each.length > 1).length * 2 >= points.length) return true;
  const runs = names.filter((name, at) => name !== names[at - 1]).length;
  return net.column < point.column && runs === new Set(names).size && names.length >= runs * 1.5;
}

/** What was taken for granted, to be told: names of connectors, empty cells, signs in ends, tables without headings. */
function assumptions(read: readonly ReadBlock[]): readonly ImportProblem[] {
  const texts: string[] = [];
  const connectors = new Map<string, string>();
  for (const { block, connector, records } of read) {
    for (const { row } of records)
      if (connector(row) !== "") connectors.set(connector(row), block.name?.text ?? block.table.title ?? "");
  }
  const named = [...connectors].map(([name, text]) => (text === "" || text === name ? name : `${name} ("${text}")`));
  if (named.length > 0) texts.push(`connectors named beside the table: ${named.slice(0, 12).join(", ")}`);
  if (read.length > 1) texts.push(`${read.length} tables`);
  const bare = read.filter(({ block }) => block.headingRow === undefined);
  for (const { columns } of bare)
    texts.push(
      `a table without headings, columns: ${[...columns].map(([field, { column }]) => `${column + 1} ${field}`).join(", ")}`,
    );
  const signs = new Set(
    read.flatMap(({ separator }) => (separator === undefined || separator === ":" ? [] : [separator])),
  );
  if (signs.size > 0) texts.push(`"${[...signs].join('" or "')}" stands between connector and pin`);
  const filled = new Set(
    read.flatMap(({ block, columns }) =>
      fieldsToFill(block, columns).map((field) => columns.get(field)?.heading ?? field),
    ),
  );
  if (filled.size > 0) texts.push(`an empty cell means the text above it in: ${[...filled].join(", ")}`);
  if (read.some(({ isNetList: isList }) => isList))
    texts.push("a list of nets: the order of their points is not known");
  return texts.map((text) => importProblem("read-as", {}, { text }));
}

function coloursOf(record: RowRecord): string {
  const [base, tracer] = [record.text("colour"), record.text("tracer")];
  return tracer === "" ? base : `${base}/${tracer}`;
}

/** Sizes that have no unit in their cell or heading, and the one they are proposed to have. */
function sizesWithoutUnit(
  records: readonly { readonly record: RowRecord; readonly columns: ReadonlyMap<ColumnField, FieldColumn> }[],
): { readonly unit: "mm2" | "AWG" | undefined; readonly texts: readonly string[] } {
  const texts = records.flatMap(({ record, columns }) => {
    const column = columns.get("crossSection");
    const text = column && column.unit === undefined ? record.text("crossSection") : "";
    return /^\d+(?:[.,]\d+)?$|^\d\/0$/u.test(text) ? [text] : [];
  });
  return { unit: unitOfSizes(texts), texts };
}

function decimalOf(records: readonly RowRecord[]): DecimalSign | undefined {
  const fields = ["crossSection", "length", "terminalSize"] as const;
  return findDecimalSign(
    records.flatMap((record) => fields.flatMap((field) => (record.isNumber(field) ? [] : [record.text(field)]))),
  );
}

/** The decimal sign of cells that can only be read one way, such as `0,75`; undefined if none tells, or if they contradict each other. */
export function findDecimalSign(texts: readonly string[]): DecimalSign | undefined {
  const found = new Set<DecimalSign>();
  for (const text of texts) {
    const [way, ...more] = numberWays(/^[+-]?\s*(\d[\d.,']*|[.,]\d+)/u.exec(text.trim())?.[1] ?? "");
    if (!way || more.length > 0) continue;
    if (way.decimal) found.add(way.decimal === "," ? "comma" : "point");
    else if (way.group === "," || way.group === ".") found.add(way.group === "," ? "point" : "comma");
  }
  const [only] = found;
  return found.size === 1 ? only : undefined;
}

const SIDES = ["from", "to"] as const;
type Side = (typeof SIDES)[number];

/** The cells of a row that hold connector and pin together; a name beside an empty pin is a bare name where that side has pins of its own. */
function wholeEnds(record: RowRecord, hasPins: ReadonlySet<Side>): readonly string[] {
  const ends = SIDES.flatMap((side) => {
    const connector = hasPins.has(side) ? "" : record.text(`${side}Connector`) || record.text(`${side}Component`);
    const whole = connector !== "" && record.text(`${side}Pin`) === "" ? connector : record.text(side);
    return whole === "" || record.text(`${side}Type`) !== "" ? [] : [whole];
  });
  const both = splitArrow(record.text("ends")) ?? [];
  return [
    ...ends,
    ...both,
    ...splitPoints(record.text("point")),
    ...[record.text("toOther")].filter((text) => text !== ""),
  ];
}

function separatorOf(records: readonly RowRecord[]): string | undefined {
  const looked = records.slice(0, 2000);
  const hasPins = new Set(SIDES.filter((side) => looked.some((record) => record.text(`${side}Pin`) !== "")));
  return findEndSeparator(looked.flatMap((record) => wholeEnds(record, hasPins)))?.separator;
}

/** Goes through all names of the tables once: which have pins, which stand without, and which parts have which connector. */
function knownNames(read: readonly ReadBlock[]): KnownNames {
  const connectors = new Set<string>();
  const bare = new Map<string, number>();
  const owners = new Map<string, Set<string>>();
  const take = (component: string, connector: string, pin: string): void => {
    const name = connector === "" ? component : connector;
    if (name === "") return;
    if (pin === "") bare.set(name, (bare.get(name) ?? 0) + 1);
    else connectors.add(name);
    if (connector !== "" && component !== "")
      owners.set(connector, (owners.get(connector) ?? new Set()).add(component));
  };
  for (const { records, connector, separator } of read) {
    for (const record of records) {
      const title = connector(record.row);
      if (title !== "") connectors.add(title);
      for (const which of Object.keys(END_FIELDS) as (keyof typeof END_FIELDS)[]) {
        const end = endTextOf(record, which, separator);
        if (end && end.type === "") take(end.component, end.connector, end.pin);
      }
      for (const text of [...splitPoints(record.text("point")), ...(splitArrow(record.text("ends")) ?? [])]) {
        const { connector: name, pin } = splitEnd(text, separator);
        take("", name, pin);
      }
    }
  }
  return { connectors, bare, owners };
}
