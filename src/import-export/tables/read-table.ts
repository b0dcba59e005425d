import { addTo, defined, err, ok, type DecimalSign, type Result } from "../../base/index.ts";
import type { Delimiter } from "../csv.ts";
import { HarnessDraft } from "../draft/harness-draft.ts";
import { runToEnd, type FormatReader, type Reading, type ReadProgress } from "../format-reader.ts";
import { importProblem, inFile, type ImportProblem } from "../import-problem.ts";
import { recogniseFile } from "../recognise-file.ts";
import { PIN_TABLE_COLUMNS, type ProposedMapping, type TableMapping, type Unit } from "./columns.ts";
import { fillDraft, findPossiblePairs } from "./fill-draft.ts";
import { loadTables, type TableFormat } from "./load-tables.ts";
import { missingFrom, proposeMapping } from "./propose-mapping.ts";
import { faultyRows, type FaultyRow } from "./faulty-rows.ts";
import type { Block } from "./find-blocks.ts";
import type { ColourScheme, InlinePair, TableOptions, TableReadOptions } from "./table-options.ts";
import type { TableProposal } from "./table-proposal.ts";
import { connectorName, knownEnds, showPoint, type WireEntry } from "./table-rows.ts";
import { understandTables, type LoadedTables, type UnderstoodTables } from "./understand-tables.ts";
import type { ReadBlock } from "./table-rows.ts";
import { readColourText } from "./wire-facts.ts";

const reader = (id: TableFormat, name: string, extensions: readonly string[]): FormatReader<TableReadOptions> => ({
  ...{ id, label: `Pin table or wire list, ${name}`, extensions },
  recognises: (bytes, fileName) => recogniseFile(bytes, fileName).kind === id,
  read: (bytes, options) => readTableFiles([{ bytes, format: id, fileName: options.fileName }], options),
});

/** Reads pin tables and wire lists from CSV files and pasted text. */
export const csvReader = reader("csv", "CSV", [".csv", ".tsv", ".txt"]);
/** Reads pin tables and wire lists from XLSX workbooks. */
export const xlsxReader = reader("xlsx", "XLSX", [".xlsx"]);
/** Every reader of pin tables and wire lists. */
export const tableReaders: readonly FormatReader<TableReadOptions>[] = [
  csvReader,
  xlsxReader,
  reader("ods", "ODS", [".ods"]),
  reader("markdown", "Markdown", [".md"]),
  reader("html", "HTML", [".html", ".htm"]),
];

/** Whether a format, by its short name, is one that tables come in. */
export function isTableFormat(id: string): id is TableFormat {
  return tableReaders.some((each) => each.id === id);
}

/** A file of tables. */
export interface TableFile {
  readonly bytes: Uint8Array;
  readonly format: TableFormat;
  readonly fileName: string;
  /** What a person has said of how to load this one of several files: sheet, delimiter, repairs. */
  readonly table?: TableOptions;
}

/**
 * Reads one or more files of tables as one harness, in steps: a connector of one name in several of them is one connector.
 *
 * @param files The files.
 * @param options What a person has said about them.
 */
export function* readTableFiles(files: readonly TableFile[], options: TableReadOptions): Reading {
  const { table: said = {}, fileName: file, machine, system } = options;
  const loaded = yield* within(loadFiles(files, options), { from: 0, to: 0.4 });
  if (!loaded.ok) return err(loaded.error.map((problem) => inFile(problem, file)));
  const reading = { from: 0.4, to: 0.6, name: "Reading the rows" };
  const understood = yield* within(understandTables(loaded.value, said, { fileName: file }), reading);
  const faults = faultsOf(loaded.value, understood, said);
  if (faults.length > 0) return err(faults.map((problem) => inFile(problem, file)));
  const draft = new HarnessDraft({ file, ...defined({ machine, system }) });
  for (const problem of [...loaded.value.warnings, ...headingWarnings(understood.blocks), ...understood.problems])
    draft.report(problem);
  for (const note of understood.notes) draft.note(note);
  const filling = fillDraft(draft, understood.entries, { options: said, optionLabels: understood.optionLabels });
  yield* within(filling, { from: 0.6, to: 0.8, name: "Putting the harness together" });
  yield { share: 0.8, doing: "Checking the harness" };
  const made = draft.finish();
  if (!made.ok) return err(shorten(made.error));
  return ok({ ...made.value, warnings: shorten(made.value.warnings), proposals: understood.proposals });
}

/** Loads the tables of several files; of a single one they need no name of a file. */
function* loadFiles(
  files: readonly TableFile[],
  options: TableReadOptions,
): Generator<ReadProgress, Result<LoadedTables, readonly ImportProblem[]>, void> {
  const [only, second] = files;
  if (only && !second) return yield* loadTables(only.bytes, only.format, options);
  const tables: LoadedTables["tables"][number][] = [];
  const warnings: ImportProblem[] = [];
  for (const { bytes, format, fileName, table = options.table } of files) {
    const loaded = yield* loadTables(bytes, format, { ...options, fileName, ...defined({ table }) });
    if (!loaded.ok) return err(loaded.error.map((problem) => inFile(problem, fileName)));
    tables.push(...loaded.value.tables.map((table) => ({ ...table, file: fileName })));
    warnings.push(...loaded.value.warnings.map((problem) => inFile(problem, fileName)));
  }
  return ok({ tables, warnings });
}

/** What keeps the whole file from being read: no table that is understood, or columns said that do not fit. */
function faultsOf(
  { tables, warnings }: LoadedTables,
  { blocks, entries, problems }: UnderstoodTables,
  said: TableOptions,
): readonly ImportProblem[] {
  const [first] = blocks;
  const at = { ...defined({ sheet: first?.block.table.sheet, row: first?.block.headingRow }) };
  const width = first?.block.window[1] ?? 0;
  const given = said.mapping
    ? [mappingFault(said.mapping, width)]
    : blocks.flatMap(({ block: { mapping, proposed, window } }) =>
        mapping === proposed ? [] : [mappingFault(mapping, window[1])],
      );
  const reason = given.find((fault) => fault !== undefined);
  if (reason !== undefined) return [importProblem("mapping-wrong", at, { reason })];
  const head = tables.find(({ rows }) => rows.length > 0)?.rows.at(-1);
  const isHead = head && blocks.every(({ records }) => records.length === 0) && proposeMapping(head.cells);
  if (isHead && isHead.missing.length === 0 && isHead.columns.length > 1) {
    const headings = head.cells.filter((cell) => cell.trim() !== "").length;
    return [importProblem("table-no-rows", { row: head.row }, { headings })];
  }
  if (entries.wires.length + entries.pins.length + entries.nets.length > 0) return [];
  if (blocks.some(({ records }) => records.length > 0)) {
    const rows = blocks.reduce((sum, { records }) => sum + records.length, 0);
    return [
      importProblem("no-row-read", defined({ sheet: first?.block.table.sheet }), { rows }),
      ...warnings,
      ...problems,
    ];
  }
  const proposed = first?.block.proposed;
  const missing = proposed && proposed.columns.length > 0 ? proposed.missing : [];
  const wanted = missing.length > 0 ? missing : missingFrom("pin", new Set());
  return [importProblem("headings-unknown", at, { missing: wanted.join(" and ") })];
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

/** Warnings about headings that stand twice, columns whose cells go to the notes, and rows that go on beyond the headings. */
function headingWarnings(blocks: readonly ReadBlock[]): readonly ImportProblem[] {
  const problems: ImportProblem[] = [];
  const unmapped = new Set<string>();
  for (const { block } of blocks) {
    const place = defined({ sheet: block.table.sheet, row: block.headingRow });
    const columns = new Map<string, number[]>();
    const isEnd = new Set(
      block.mapping.columns.flatMap(({ column, field }) => (/^(?:from|to)/u.test(field) ? [column] : [])),
    );
    block.headings.forEach((text, column) => {
      const key = text.trim().toLowerCase();
      if (key !== "" && !isEnd.has(column)) columns.set(key, [...(columns.get(key) ?? []), column + 1]);
    });
    for (const [heading, at] of columns)
      if (at.length > 1) problems.push(importProblem("heading-twice", place, { heading, columns: at.join(", ") }));
    const mapped = new Set(block.mapping.columns.map((each) => each.column));
    block.headings.forEach((text, column) => {
      if (text.trim() !== "" && !mapped.has(column)) unmapped.add(text.trim());
    });
    const width = block.headings.length;
    const long = block.rows.filter(({ cells }) => cells.slice(width).some((cell) => cell.trim() !== ""));
    for (const { row, line, cells } of block.headingRow === undefined ? [] : long.slice(0, 50))
      problems.push(
        importProblem(
          "row-too-long",
          { ...place, row, ...defined({ line }) },
          { cells: cells.length, headings: width },
        ),
      );
  }
  if (unmapped.size > 0)
    problems.push(importProblem("column-unmapped", {}, { headings: [...unmapped].slice(0, 20).join(", ") }));
  return problems;
}

/** A share of the whole work, and a name for its steps where they have none. */
interface WorkShare {
  readonly from: number;
  readonly to: number;
  readonly name?: string;
}

/** Places the progress of a piece of work within that of the whole. */
function* within<Answer>(
  work: Generator<number | ReadProgress, Answer, void>,
  { from, to, name = "" }: WorkShare,
): Generator<ReadProgress, Answer, void> {
  let step = work.next();
  for (; step.done !== true; step = work.next()) {
    const { share, doing } = typeof step.value === "number" ? { share: step.value, doing: name } : step.value;
    yield { share: from + share * (to - from), doing };
  }
  return step.value;
}

/** The same problem for hundreds of rows tells no more than for the first ones. */
const MOST_OF_A_KIND = 200;

/** Leaves out what comes too often. Names that an id cannot hold are told once for all, as each stays the name of its item. */
function shorten(problems: readonly ImportProblem[]): readonly ImportProblem[] {
  const counts = new Map<string, number>();
  const changed = problems.filter(({ code }) => code === "id-changed");
  const [first] = changed;
  const told = problems.filter(({ code }) => {
    const count = (counts.get(code) ?? 0) + 1;
    counts.set(code, count);
    return code !== "id-changed" && count <= MOST_OF_A_KIND;
  });
  if (!first) return told;
  const message = changed
    .slice(0, 12)
    .map((each) => each.message.replace(/^The id /u, ""))
    .join("; ");
  const more = changed.length > 12 ? `; and ${changed.length - 12} more` : "";
  const file = first.at.file === undefined ? {} : { file: first.at.file };
  return [...told, { ...first, at: file, message: `Ids changed: ${message}${more}` }];
}

/** A colour code of a file: how often it comes, and how it is read, if it is. */
export interface ColourCode {
  readonly written: string;
  readonly count: number;
  readonly colour?: string;
}

/** One of the first rows of a table as understood, in words. */
export interface PreviewWire {
  readonly row: number;
  readonly wire: string;
  readonly from: string;
  readonly to: string;
  readonly facts: WireEntry["facts"];
}

/** How one of the tables of a file is understood, together with those that have the same headings. */
export interface TablePart {
  readonly sheet?: string;
  /** Row of the headings; 0 where the table has none. */
  readonly headingRow: number;
  readonly headings: readonly string[];
  /** The mapping in use: the one given, the one known for the headings, or the one proposed. */
  readonly mapping: TableMapping;
  readonly proposed: ProposedMapping;
  /** The first rows below the headings, as cells. */
  readonly firstRows: readonly { readonly row: number; readonly cells: readonly string[] }[];
  /** How many tables of the file have these headings. */
  readonly tableCount: number;
  /** What stands beside them as their names. */
  readonly names: readonly string[];
}

/**
 * How a table file is understood, before anything is imported: what was found out, and what a person may want to change. It shows the largest
 * table of the file.
 */
export interface TablePreview extends TablePart {
  readonly format: TableFormat;
  readonly encoding?: string;
  readonly delimiter?: Delimiter;
  readonly sheets?: readonly string[];
  readonly decimal: DecimalSign | undefined;
  readonly endSeparator: string | undefined;
  /** All tables of the file by their headings, the largest first. */
  readonly parts: readonly TablePart[];
  /** The wires of the first rows, as understood. */
  readonly firstWires: readonly PreviewWire[];
  /** What the colour codes are read by. */
  readonly colourScheme: ColourScheme;
  /** The unit that a person has accepted for sizes without one. */
  readonly sizeUnit?: Unit;
  /** Colour codes of the whole file, most frequent first. */
  readonly colours: readonly ColourCode[];
  /** Connectors that may be the two halves of one. */
  readonly possiblePairs: readonly InlinePair[];
  /** Rows of all tables of the file. */
  readonly rowCount: number;
  /** Rows that were not read, or not wholly. */
  readonly faultyRows: readonly FaultyRow[];
  readonly proposals: readonly TableProposal[];
  readonly problems: readonly ImportProblem[];
}

const FIRST_ROWS = 20;

/**
 * Looks at a table file and says how it would be read, in steps. Nothing is imported; whoever asks may change the mapping or any other option
 * and look again.
 *
 * @param bytes The file.
 * @param options What has been said so far.
 */
export function* previewTable(
  bytes: Uint8Array,
  options: TableReadOptions,
): Generator<ReadProgress, Result<TablePreview, readonly ImportProblem[]>, void> {
  const { kind } = recogniseFile(bytes, options.fileName);
  const format = isTableFormat(kind) ? kind : "xlsx";
  const loaded = yield* loadTables(bytes, format, options);
  if (!loaded.ok) return err(loaded.error);
  const said = options.table ?? {};
  const { fileName } = options;
  const understood = runToEnd(understandTables(loaded.value, said, { fileName }));
  const faults = faultsOf(loaded.value, understood, said);
  const blocks = understood.blocks.toSorted((one, two) => two.records.length - one.records.length);
  const parts = partsOf(blocks.map(({ block }) => block));
  const [shown] = parts;
  // A table of which no row was read is shown, so that its rows can be repaired.
  const [fault] = faults;
  if ((fault && fault.code !== "no-row-read") || !shown) return err(faults);
  const { encoding, delimiter, sheets, warnings, tables } = loaded.value;
  return ok({
    ...shown,
    format,
    ...defined({ encoding, delimiter, sheets, sizeUnit: understood.sizeUnit }),
    decimal: understood.decimal,
    endSeparator: said.endSeparator ?? blocks[0]?.separator,
    parts,
    firstWires: firstWires(loaded.value, said, fileName),
    colourScheme: understood.colours,
    colours: colourCodes(understood),
    possiblePairs: findPossiblePairs(pinsByName(understood)),
    rowCount: understood.blocks.reduce((sum, { records }) => sum + records.length, 0),
    faultyRows: faultyRows(tables, understood),
    proposals: understood.proposals,
    problems: [...warnings, ...headingWarnings(understood.blocks), ...understood.problems],
  });
}

/** The tables of a file, one for all with the same headings and mapping. */
function partsOf(blocks: readonly Block[]): readonly TablePart[] {
  const groups = new Map<string, Block[]>();
  for (const block of blocks) {
    const { shape, columns } = block.mapping;
    addTo(groups, JSON.stringify([block.headings, shape, columns]), block);
  }
  return [...groups.values()].flatMap((group): readonly TablePart[] => {
    const [block] = group;
    if (!block) return [];
    const { table, headingRow = 0, headings, mapping, proposed, rows } = block;
    const names = new Set(group.flatMap(({ name, table: { title } }) => name?.text ?? title ?? []));
    return [
      {
        ...defined({ sheet: table.sheet }),
        ...{ headingRow, headings, proposed, mapping: { shape: mapping.shape, columns: mapping.columns } },
        ...{ firstRows: rows.slice(0, FIRST_ROWS), tableCount: group.length, names: [...names] },
      },
    ];
  });
}

function firstWires(loaded: LoadedTables, said: TableOptions, fileName: string): readonly PreviewWire[] {
  const { entries } = runToEnd(understandTables(loaded, said, { fileName, mostRows: FIRST_ROWS }));
  return entries.wires.slice(0, FIRST_ROWS).map(({ id: wire, ends: [from, to], facts, at }) => {
    const far = to ? showPoint(to) : "not in the table";
    return { row: at.row ?? 0, wire, from: showPoint(from), to: far, facts };
  });
}

function colourCodes({ blocks, colours: scheme }: UnderstoodTables): readonly ColourCode[] {
  const counts = new Map<string, number>();
  for (const record of blocks.flatMap(({ records }) => records)) {
    const [base, tracer] = [record.text("colour"), record.text("tracer")];
    const text = tracer === "" ? base : `${base}/${tracer}`;
    if (text !== "") counts.set(text, (counts.get(text) ?? 0) + 1);
  }
  const sorted = [...counts].sort((first, second) => second[1] - first[1]);
  return sorted.map(([written, count]) => {
    const reading = readColourText(written, scheme);
    return { written, count, ...(reading.kind === "colour" ? { colour: reading.colour } : {}) };
  });
}

function pinsByName({ entries }: UnderstoodTables): ReadonlyMap<string, ReadonlySet<string>> {
  const pins = new Map<string, Set<string>>();
  for (const end of [
    ...entries.pins.map((pin) => pin.point),
    ...entries.wires.flatMap((wire) => knownEnds(wire.ends)),
  ]) {
    if (end.kind !== "contact" || end.side !== "") continue;
    const name = connectorName(end);
    pins.set(name, (pins.get(name) ?? new Set()).add(end.pin));
  }
  return pins;
}
