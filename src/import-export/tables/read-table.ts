import { defined, err, ok, type DecimalSign, type Result } from "../../base/index.ts";
import { HarnessDraft } from "../draft/harness-draft.ts";
import { runToEnd, type FormatReader, type Reading, type ReadProgress } from "../format-reader.ts";
import { importProblem, inFile, sizeFault, type ImportProblem } from "../import-problem.ts";
import { recogniseFile } from "../recognise-file.ts";
import { fillDraft, findPossiblePairs } from "./fill-draft.ts";
import { headingWarnings, findHeadings } from "./find-headings.ts";
import type { InlinePair, TableReadOptions } from "./table-options.ts";
import { type LoadedTable, understandTable, type UnderstoodTable } from "./understand-table.ts";
import { parseCsv, type Delimiter } from "../csv.ts";
import { decodeText } from "../text.ts";
import { openWorkbook, readSheet } from "../xlsx/read-workbook.ts";
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
  const { table: said = {}, fileName: file, machine, system } = options;
  const loaded = yield* within(loading, 0, 0.4);
  if (!loaded.ok) return err(loaded.error.map((problem) => inFile(problem, file)));
  const { table, headings, warnings } = loaded.value;
  const understood = yield* within(understandTable(loaded.value, said), 0.4, 0.6, "Reading the rows");
  const draft = new HarnessDraft({ file, ...defined({ machine, system }) });
  const before = [...warnings, ...headingWarnings(table, headings), ...understood.problems];
  for (const problem of before) draft.report(problem);
  const filling = fillDraft(draft, understood.entries, { options: said, optionLabels: understood.optionLabels });
  yield* within(filling, 0.6, 0.8, "Putting the harness together");
  yield { share: 0.8, doing: "Checking the harness" };
  const made = draft.finish();
  return made.ok ? ok({ ...made.value, warnings: shorten(made.value.warnings) }) : err(shorten(made.error));
}

/** Places the progress of a piece of work within that of the whole, and gives its steps a name where they have none. */
function* within<Answer>(
  work: Generator<number | ReadProgress, Answer, void>,
  from: number,
  to: number,
  name = "",
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

function shorten(problems: readonly ImportProblem[]): readonly ImportProblem[] {
  const counts = new Map<string, number>();
  return problems.filter(({ code }) => {
    const count = (counts.get(code) ?? 0) + 1;
    counts.set(code, count);
    return count <= MOST_OF_A_KIND;
  });
}

/** Loading a table, in steps. */
type TableLoading = Generator<ReadProgress, Result<LoadedTable, readonly ImportProblem[]>, void>;

/** Most bytes of a table file. */
const MOST_BYTES = 64 * 1024 * 1024;
const SIGNS = { ",": "commas", ";": "semicolons", "\t": "tabs" } as const;

/** Loads a CSV file: decodes it, cuts it into cells and finds its headings. */
function* loadCsv(bytes: Uint8Array, options: TableReadOptions): TableLoading {
  const fault = sizeFault(bytes, options.mostBytes ?? MOST_BYTES);
  if (fault) return err([fault]);
  const decoded = decodeText(bytes);
  if (!decoded.ok) return err([decoded.error]);
  const { text, encoding } = decoded.value;
  yield { share: 0.1, doing: "Cutting the text into cells" };
  const { table: said = {} } = options;
  const parsed = parseCsv(text, defined({ delimiter: said.delimiter }));
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
  const fault = sizeFault(bytes, options.mostBytes ?? MOST_BYTES);
  if (fault) return err([fault]);
  const workbook = openWorkbook(bytes);
  if (!workbook.ok) return workbook;
  const { table: said = {} } = options;
  const all = workbook.value.sheets;
  const visible = all.filter((sheet) => !sheet.isHidden);
  const sheets = visible.map((sheet) => sheet.name);
  const named = all.filter((sheet) => sheet.name === said.sheet);
  const chosen = said.sheet !== undefined ? named : visible.length > 0 ? visible : all;
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
    const isEmpty = read.value.table.rows.length === 0;
    first ??= isEmpty ? [importProblem("file-empty", { sheet: sheet.name }, { bytes: bytes.length })] : headings.error;
  }
  return err(first ?? []);
}

/** Rows that fall into fewer cells than the rest of the table, and into about as many by another sign. */
function findMixedDelimiters(table: Table, used: Delimiter): readonly ImportProblem[] {
  const width = Math.max(0, ...table.rows.slice(0, 200).map((row) => row.cells.length));
  if (width < 3) return [];
  const problems: ImportProblem[] = [];
  for (const { row, line, cells } of table.rows) {
    if (cells.filter((cell) => cell.trim() !== "").length * 2 > width) continue;
    const isBy = (sign: string): boolean => sign !== used && cells.join(used).split(sign).length >= width - 1;
    const [, other] = Object.entries(SIGNS).find(([sign]) => isBy(sign)) ?? [];
    if (other === undefined) continue;
    problems.push(importProblem("delimiter-mixed", { row, ...defined({ line }) }, { used: SIGNS[used], other }));
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
    ...defined({ encoding, delimiter, sheets, sheet: table.sheet }),
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
  return entries.wires.map(({ id: wire, ends: [from, to], facts, at }) => {
    const far = to ? showPoint(to) : "not in the table";
    return { row: at.row ?? 0, wire, from: showPoint(from), to: far, facts };
  });
}

function colourCodes(understood: UnderstoodTable, options: TableReadOptions): readonly ColourCode[] {
  const counts = new Map<string, number>();
  for (const record of understood.records) {
    const [base, tracer] = [record.text("colour"), record.text("tracer")];
    const text = tracer === "" ? base : `${base}/${tracer}`;
    if (text !== "") counts.set(text, (counts.get(text) ?? 0) + 1);
  }
  const scheme = options.table?.colours ?? { kind: "iec-60757" };
  const sorted = [...counts].sort((first, second) => second[1] - first[1]);
  return sorted.map(([written, count]) => {
    const reading = readColourText(written, scheme);
    return { written, count, ...(reading.kind === "colour" ? { colour: reading.colour } : {}) };
  });
}

function pinsByName(understood: UnderstoodTable): ReadonlyMap<string, ReadonlySet<string>> {
  const pins = new Map<string, Set<string>>();
  for (const end of [
    ...understood.entries.pins.map((pin) => pin.point),
    ...understood.entries.wires.flatMap((wire) => knownEnds(wire.ends)),
  ]) {
    if (end.kind !== "contact" || end.side !== "") continue;
    const name = end.connector === "" ? end.component : end.connector;
    pins.set(name, (pins.get(name) ?? new Set()).add(end.pin));
  }
  return pins;
}
