import { err, ok, type Result, type DecimalSign } from "../../base/index.ts";
import { HarnessDraft } from "../draft/harness-draft.ts";
import type { FormatReader, ReadProgress, ReadResult, Reading } from "../format-reader.ts";
import { type ImportProblem, importProblem } from "../import-problem.ts";
import { recogniseFile } from "../recognise-file.ts";
import { fillDraft, findPossiblePairs } from "./fill-draft.ts";
import { headingWarnings, findHeadings } from "./find-headings.ts";
import type { TableReadOptions, TableOptions, InlinePair } from "./table-options.ts";
import { type LoadedTable, understandTable, type UnderstoodTable } from "./understand-table.ts";
import { parseCsv, type Delimiter } from "../csv.ts";
import { decodeText } from "../text.ts";
import { openWorkbook, type WorkbookSheet, readSheet } from "../xlsx/read-workbook.ts";
import type { Table } from "./table.ts";
import { readColourText } from "./wire-facts.ts";
import { knownEnds, showPoint, type WireEntry } from "./table-rows.ts";
import type { ProposedMapping, TableMapping } from "./columns.ts";

/** Reads pin tables and wire lists from CSV files. */
export const csvReader: FormatReader<TableReadOptions> = {
  id: "csv",
  label: "Pin table or wire list, CSV",
  extensions: [".csv", ".tsv", ".txt"],
  recognises: (bytes, fileName) => recogniseFile(bytes, fileName).kind === "csv",
  read: (bytes, options) => readLoaded(loadCsv(bytes, options), options),
};

/** Reads pin tables and wire lists from XLSX workbooks. */
export const xlsxReader: FormatReader<TableReadOptions> = {
  id: "xlsx",
  label: "Pin table or wire list, XLSX",
  extensions: [".xlsx"],
  recognises: (bytes, fileName) => recogniseFile(bytes, fileName).kind === "xlsx",
  read: (bytes, options) => readLoaded(loadXlsx(bytes, options), options),
};

function* readLoaded(loading: TableLoading, options: TableReadOptions): Reading {
  const loaded = yield* within(loading, 0, 0.4);
  if (!loaded.ok) return err(loaded.error.map((problem) => inFile(problem, options.fileName)));
  return yield* makeDocument(loaded.value, options);
}

function* makeDocument(loaded: LoadedTable, options: TableReadOptions): Reading {
  const { table: said = {}, fileName } = options;
  const understood = yield* within(named(understandTable(loaded, said), "Reading the rows"), 0.4, 0.6);
  const draft = new HarnessDraft({
    file: fileName,
    ...(options.machine === undefined ? {} : { machine: options.machine }),
    ...(options.system === undefined ? {} : { system: options.system }),
  });
  const before = [...loaded.warnings, ...headingWarnings(loaded.table, loaded.headings), ...understood.problems];
  for (const problem of before) draft.report(problem);
  const filling = fillDraft(draft, understood.entries, { options: said, optionLabels: understood.optionLabels });
  yield* within(named(filling, "Putting the harness together"), 0.6, 0.8);
  yield { share: 0.8, doing: "Checking the harness" };
  return settle(draft.finish());
}

/** Gives the steps of a piece of work a name. */
function* named<Answer>(work: Generator<number, Answer, void>, doing: string): Generator<ReadProgress, Answer, void> {
  let step = work.next();
  for (; step.done !== true; step = work.next()) yield { share: step.value, doing };
  return step.value;
}

/** Places the progress of a piece of work within that of the whole. */
function* within<Answer>(
  work: Generator<ReadProgress, Answer, void>,
  from: number,
  to: number,
): Generator<ReadProgress, Answer, void> {
  let step = work.next();
  for (; step.done !== true; step = work.next()) yield { ...step.value, share: from + step.value.share * (to - from) };
  return step.value;
}

/** The same problem for hundreds of rows tells no more than for the first ones. */
const MOST_OF_A_KIND = 200;

function settle(result: ReadResult): ReadResult {
  if (result.ok) return { ok: true, value: { ...result.value, warnings: shorten(result.value.warnings) } };
  return err(shorten(result.error));
}

function shorten(problems: readonly ImportProblem[]): readonly ImportProblem[] {
  const counts = new Map<string, number>();
  return problems.filter(({ code }) => {
    const count = (counts.get(code) ?? 0) + 1;
    counts.set(code, count);
    return count <= MOST_OF_A_KIND;
  });
}

function inFile(problem: ImportProblem, file: string): ImportProblem {
  return problem.at.file === undefined ? { ...problem, at: { file, ...problem.at } } : problem;
}

/** Loading a table, in steps. */
type TableLoading = Generator<ReadProgress, Result<LoadedTable, readonly ImportProblem[]>, void>;

/** Most bytes of a table file. */
const MOST_BYTES = 64 * 1024 * 1024;
const SIGNS: readonly Delimiter[] = [",", ";", "\t"];
const NAMES: Readonly<Record<Delimiter, string>> = { ",": "commas", ";": "semicolons", "\t": "tabs" };

/** Loads a CSV file: decodes it, cuts it into cells and finds its headings. */
function* loadCsv(bytes: Uint8Array, options: TableReadOptions): TableLoading {
  const fault = sizeFault(bytes, options);
  if (fault) return err([fault]);
  const decoded = decodeText(bytes);
  if (!decoded.ok) return err([decoded.error]);
  const { text, encoding } = decoded.value;
  yield { share: 0.1, doing: "Cutting the text into cells" };
  const { table: said = {} } = options;
  const parsed = parseCsv(text, said.delimiter === undefined ? {} : { delimiter: said.delimiter });
  if (!parsed.ok) return parsed;
  const { delimiter } = parsed.value;
  if (parsed.value.rows.length === 0) return err([importProblem("file-empty", {}, { bytes: bytes.length })]);
  const mixed = findMixedDelimiters(parsed.value, delimiter);
  if (mixed.length > 0) return err(mixed);
  const headings = findHeadings(parsed.value, said);
  if (!headings.ok) return headings;
  const warnings = encoding === "Windows-1252" ? [importProblem("encoding-assumed", {}, { encoding })] : [];
  return ok({ table: { rows: parsed.value.rows }, headings: headings.value, warnings, encoding, delimiter });
}

/** Loads one sheet of an XLSX workbook: the one asked for, or the first visible one with headings that are understood. */
function* loadXlsx(bytes: Uint8Array, options: TableReadOptions): TableLoading {
  const fault = sizeFault(bytes, options);
  if (fault) return err([fault]);
  const workbook = openWorkbook(bytes);
  if (!workbook.ok) return workbook;
  const { table: said = {} } = options;
  const visible = workbook.value.sheets.filter((sheet) => !sheet.isHidden);
  const sheets = visible.map((sheet) => sheet.name);
  const chosen = chooseSheets(workbook.value.sheets, said);
  if (chosen.length === 0) {
    const facts = { sheet: (said.sheet ?? "").slice(0, 80), sheets: sheets.join(", ") };
    return err([importProblem("sheet-unknown", {}, facts)]);
  }
  let first: readonly ImportProblem[] | undefined;
  for (const sheet of chosen) {
    const read = yield* readSheet(workbook.value, sheet);
    if (!read.ok) return read;
    const headings = findHeadings(read.value.table, said);
    if (headings.ok) return ok({ ...read.value, headings: headings.value, sheets });
    first ??=
      read.value.table.rows.length === 0
        ? [importProblem("file-empty", { sheet: sheet.name }, { bytes: bytes.length })]
        : headings.error;
  }
  return err(first ?? []);
}

function sizeFault(bytes: Uint8Array, options: TableReadOptions): ImportProblem | undefined {
  const limit = options.mostBytes ?? MOST_BYTES;
  if (bytes.length === 0) return importProblem("file-empty", {}, { bytes: 0 });
  return bytes.length > limit ? importProblem("file-too-large", {}, { bytes: bytes.length, limit }) : undefined;
}

function chooseSheets(sheets: readonly WorkbookSheet[], said: TableOptions): readonly WorkbookSheet[] {
  if (said.sheet !== undefined) return sheets.filter((sheet) => sheet.name === said.sheet);
  const visible = sheets.filter((sheet) => !sheet.isHidden);
  return visible.length > 0 ? visible : sheets;
}

/** Rows that fall into fewer cells than the rest of the table, and into about as many by another sign. */
function findMixedDelimiters(table: Table, used: Delimiter): readonly ImportProblem[] {
  const width = Math.max(0, ...table.rows.slice(0, 200).map((row) => row.cells.length));
  if (width < 3) return [];
  const problems: ImportProblem[] = [];
  for (const { row, line, cells } of table.rows) {
    const filled = cells.filter((cell) => cell.trim() !== "").length;
    const other =
      filled * 2 <= width
        ? SIGNS.find((sign) => sign !== used && cells.join(used).split(sign).length >= width - 1)
        : undefined;
    if (other === undefined) continue;
    const place = { row, ...(line === undefined ? {} : { line }) };
    problems.push(importProblem("delimiter-mixed", place, { used: NAMES[used], other: NAMES[other] }));
    if (problems.length >= 20) break;
  }
  return problems;
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

/** How a table is understood, before anything is imported: what was found out, and what a person may want to change. */
export interface TablePreview {
  readonly format: "csv" | "xlsx";
  readonly encoding?: string;
  readonly delimiter?: Delimiter;
  readonly sheets?: readonly string[];
  readonly sheet?: string;
  readonly headingRow: number;
  readonly headings: readonly string[];
  /** The mapping in use: the one given, or the one proposed. */
  readonly mapping: TableMapping;
  readonly proposed: ProposedMapping;
  readonly decimal: DecimalSign | undefined;
  readonly endSeparator: string | undefined;
  /** The first rows below the headings, as cells. */
  readonly firstRows: readonly { readonly row: number; readonly cells: readonly string[] }[];
  /** The wires of the first rows, as understood. */
  readonly firstWires: readonly PreviewWire[];
  /** Colour codes of the whole table, most frequent first. */
  readonly colours: readonly ColourCode[];
  /** Connectors that may be the two halves of one. */
  readonly possiblePairs: readonly InlinePair[];
  readonly rowCount: number;
  readonly problems: readonly ImportProblem[];
}

const FIRST_ROWS = 20;

/**
 * Looks at a CSV or XLSX table and says how it would be read, in steps. Nothing is imported; whoever asks may change the mapping or any
 * other option and look again.
 *
 * @param bytes The file.
 * @param options What has been said so far.
 */
export function* previewTable(
  bytes: Uint8Array,
  options: TableReadOptions,
): Generator<ReadProgress, Result<TablePreview, readonly ImportProblem[]>, void> {
  const format = recogniseFile(bytes, options.fileName).kind === "csv" ? "csv" : "xlsx";
  const loaded = yield* format === "csv" ? loadCsv(bytes, options) : loadXlsx(bytes, options);
  if (!loaded.ok) return err(loaded.error);
  const { table, headings, warnings, encoding, delimiter, sheets } = loaded.value;
  const said = options.table ?? {};
  const understood = runToEnd(understandTable(loaded.value, said));
  return ok({
    format,
    ...(encoding === undefined ? {} : { encoding }),
    ...(delimiter === undefined ? {} : { delimiter }),
    ...(sheets === undefined ? {} : { sheets }),
    ...(table.sheet === undefined ? {} : { sheet: table.sheet }),
    headingRow: headings.row,
    headings: headings.texts,
    mapping: { shape: headings.mapping.shape, columns: headings.mapping.columns },
    proposed: headings.proposed,
    decimal: understood.decimal,
    endSeparator: understood.endSeparator,
    firstRows: table.rows.filter(({ row }) => row > headings.row).slice(0, FIRST_ROWS),
    firstWires: firstWires(loaded.value, options),
    colours: colourCodes(understood, options),
    possiblePairs: findPossiblePairs(pinsByName(understood)),
    rowCount: understood.records.length,
    problems: [...warnings, ...headingWarnings(table, headings), ...understood.problems],
  });
}

function firstWires(loaded: LoadedTable, options: TableReadOptions): readonly PreviewWire[] {
  const { entries } = runToEnd(understandTable(loaded, options.table ?? {}, FIRST_ROWS));
  return entries.wires.map(({ id, ends, facts, at }) => {
    return {
      row: at.row ?? 0,
      wire: id,
      from: showPoint(ends[0]),
      to: ends[1] ? showPoint(ends[1]) : "not in the table",
      facts,
    };
  });
}

function colourCodes(understood: UnderstoodTable, options: TableReadOptions): readonly ColourCode[] {
  const counts = new Map<string, number>();
  for (const record of understood.records) {
    const [base, tracer] = [record.text("colour"), record.text("tracer")];
    const text = tracer === "" ? base : `${base}/${tracer}`;
    if (text !== "") counts.set(text, (counts.get(text) ?? 0) + 1);
  }
  const sorted = [...counts].sort((first, second) => second[1] - first[1]);
  return sorted.map(([written, count]) => {
    const reading = readColourText(written, options.table?.colours ?? { kind: "iec-60757" });
    return { written, count, ...(reading.kind === "colour" ? { colour: reading.colour } : {}) };
  });
}

function pinsByName(understood: UnderstoodTable): ReadonlyMap<string, ReadonlySet<string>> {
  const pins = new Map<string, Set<string>>();
  for (const end of [
    ...understood.entries.pins.map((pin) => pin.point),
    ...understood.entries.wires.flatMap((wire) => knownEnds(wire.ends)),
  ]) {
    if (end.kind !== "contact" || end.half !== "") continue;
    const name = end.connector === "" ? end.component : end.connector;
    pins.set(name, (pins.get(name) ?? new Set()).add(end.pin));
  }
  return pins;
}

function runToEnd<Answer>(work: Generator<number, Answer, void>): Answer {
  for (;;) {
    const step = work.next();
    if (step.done === true) return step.value;
  }
}
