import { importProblem, type ImportProblem } from "../import-problem.ts";
import {
  findEndSeparator,
  PointNamer,
  fieldColumns,
  rowRecords,
  type RowRecord,
  type TableEntries,
  endTextOf,
  type EndPoint,
  endsText,
  pointText,
  showPoint,
  type EntryEnds,
  type PinEntry,
  type WireEntry,
  type EndText,
  type WireFacts,
} from "./table-rows.ts";
import type { Delimiter } from "../csv.ts";
import type { Headings } from "./find-headings.ts";
import type { Table } from "./table.ts";
import { type DecimalSign, numberWays } from "../../base/index.ts";
import type { TableOptions } from "./table-options.ts";
import { isUnusedSignal, readMeasure, readWireFacts, type FactContext } from "./wire-facts.ts";

/** A table that is ready to be read row by row. */
export interface LoadedTable {
  readonly table: Table;
  readonly headings: Headings;
  readonly warnings: readonly ImportProblem[];
  readonly encoding?: string;
  readonly delimiter?: Delimiter;
  /** Names of the visible sheets of a workbook. */
  readonly sheets?: readonly string[];
}

/** What a loaded table says, before it becomes a document. */
export interface UnderstoodTable {
  readonly records: readonly RowRecord[];
  readonly entries: TableEntries;
  readonly optionLabels: ReadonlyMap<string, string>;
  readonly problems: readonly ImportProblem[];
  /** What was found out about the file, where the person did not say it. */
  readonly decimal: DecimalSign | undefined;
  readonly endSeparator: string | undefined;
}

/**
 * Reads the rows of a loaded table by the meaning of its columns, in steps that tell the share done.
 *
 * @param loaded The table with its headings.
 * @param mostRows Read no more than so many rows below the headings; absent means all.
 */
export function* understandTable(
  loaded: LoadedTable,
  options: TableOptions,
  mostRows?: number,
): Generator<number, UnderstoodTable, void> {
  const { table, headings } = loaded;
  const columns = fieldColumns(headings.mapping, headings.texts);
  const records = rowRecords(table, headings.row, columns);
  const problems: ImportProblem[] = [];
  const decimal = options.decimal ?? decimalOf(records);
  const endSeparator = options.endSeparator ?? separatorOf(records);
  const context: EntryContext = {
    ...{
      columns,
      decimal,
      endSeparator,
      namer: new PointNamer(options),
      withoutUnit: new Map(),
      optionLabels: new Map(),
    },
    colours: options.colours ?? { kind: "iec-60757" },
    report: (problem) => problems.push(problem),
  };
  const read = headings.mapping.shape === "wire" ? entriesOfWireRows : entriesOfPinRows;
  const entries = yield* read(records.slice(0, mostRows), context);
  for (const [field, count] of context.withoutUnit) {
    const column = columns.get(field)?.heading ?? field;
    problems.push(importProblem("unit-missing", { row: headings.row, column }, { column, count }));
  }
  const colours = entries.wires.filter((wire) => wire.facts.colour !== undefined).length;
  if (options.colours === undefined && colours > 0)
    problems.push(importProblem("colour-scheme-assumed", {}, { colours }));
  problems.push(...context.namer.problems());
  return { records, entries, optionLabels: context.optionLabels, problems, decimal, endSeparator };
}

function decimalOf(records: readonly RowRecord[]): DecimalSign | undefined {
  const fields = ["crossSection", "length", "terminalSize"] as const;
  return findDecimalSign(
    records.flatMap((record) => fields.flatMap((field) => (record.isNumber(field) ? [] : [record.text(field)]))),
  );
}

function separatorOf(records: readonly RowRecord[]): string | undefined {
  const texts = records.flatMap((record) =>
    (["from", "to"] as const).flatMap((side) => {
      const connector = record.text(`${side}Connector`);
      const whole = connector !== "" && record.text(`${side}Pin`) === "" ? connector : record.text(side);
      return whole === "" || record.text(`${side}Type`) !== "" ? [] : [whole];
    }),
  );
  return findEndSeparator(texts);
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

/** A row of a pin table that speaks of a wire. */
interface WireRow {
  readonly record: RowRecord;
  readonly own: EndPoint;
  readonly other: EndPoint | undefined;
  readonly facts: WireFacts;
}

/**
 * Reads a table with a row for each pin. Two rows that name the same wire are its two ends; a row may also say itself where its wire
 * goes. A wire of which only one end is in the table is kept, with a warning, and its far end stays open. A signal is a wire as well, unless
 * it says that the pin is not used.
 */
function* entriesOfPinRows(records: readonly RowRecord[], context: EntryContext): EntryReading {
  const pins: PinEntry[] = [];
  const named = new Map<string, WireRow[]>();
  const unnamed: WireRow[] = [];
  for (const [number, record] of records.entries()) {
    if (number % ROWS_A_STEP === ROWS_A_STEP - 1) yield number / records.length;
    const own = ownPoint(record, context);
    if (!own) continue;
    const other = otherPoint(record, context);
    const pin = pinOf(record, own, context);
    if (pin) pins.push(pin);
    if (other === undefined && !speaksOfWire(record)) continue;
    const row: WireRow = { record, own, other, facts: factsOf(record, context) };
    const id = record.text("wire");
    const rows = named.get(id) ?? [];
    if (id === "") unnamed.push(row);
    else named.set(id, rows);
    rows.push(row);
  }
  const wires = [...[...named].flatMap(([id, rows]) => namedWire(id, rows, context)), ...unnamedWires(unnamed)];
  return { wires: withOpenEnds(wires, context), pins };
}

function speaksOfWire(record: RowRecord): boolean {
  if ((["wire", "colour", "crossSection", "length"] as const).some((field) => record.text(field) !== "")) return true;
  return record.text("net") !== "" && !isUnusedSignal(record.text("net"));
}

/** What a row says of its wire; "not used" is no net. */
function factsOf(record: RowRecord, context: EntryContext): WireFacts {
  const { net, ...facts } = readWireFacts(record, context);
  if (net === undefined || !isUnusedSignal(net)) return net === undefined ? facts : { ...facts, net };
  return { ...facts, note: [facts.note, net].filter((text) => text !== undefined).join(". ") };
}

/**
 * Joins what is said twice: a row of a pin without the far end of its wire adds to the wire that another row has end in that pin. What is
 * left are wires with an open end.
 */
function withOpenEnds(wires: readonly WireEntry[], context: EntryContext): readonly WireEntry[] {
  const whole = wires.filter(({ ends }) => ends[1]);
  const at = new Map<string, number[]>();
  whole.forEach(({ ends }, number) => {
    for (const end of ends)
      if (end?.kind === "contact") at.set(pointText(end), [...(at.get(pointText(end)) ?? []), number]);
  });
  const open = wires.filter((wire) => {
    if (wire.ends[1]) return false;
    const [number, other] = at.get(pointText(wire.ends[0])) ?? [];
    const known = number === undefined ? undefined : whole[number];
    const isSame = known && other === undefined && (known.id === "" || wire.id === "");
    if (!isSame || number === undefined) return true;
    whole[number] = {
      ...known,
      id: known.id === "" ? wire.id : known.id,
      facts: { ...wire.facts, ...known.facts },
      netKind: known.netKind === "" ? wire.netKind : known.netKind,
    };
    return false;
  });
  for (const { id, facts, ends, at: place } of open) {
    const wire = id === "" ? (facts.net ?? facts.colour ?? "without a name") : id;
    context.report(importProblem("wire-one-end", place, { wire, pin: showPoint(ends[0]) }));
  }
  return [...whole, ...open];
}

function ownPoint(record: RowRecord, context: EntryContext): EndPoint | undefined {
  const text = endTextOf(record, "own", undefined);
  const nothing = { type: record.text("type"), component: "", connector: "", side: "", pin: "" };
  const point = context.namer.point(text ?? nothing, record.at());
  if (point.ok) return point.value;
  // The row is about a pin, so what is missing is the pin.
  const missing = importProblem("pin-missing", record.at(), { connector: text?.connector ?? "" });
  context.report(point.error.code === "end-unclear" ? missing : point.error);
  return undefined;
}

function otherPoint(record: RowRecord, context: EntryContext): EndPoint | undefined {
  const splice = record.text("splice");
  if (splice !== "") return { kind: "splice", id: splice };
  const text = endTextOf(record, "to", context.endSeparator);
  return text && pointOf(text, record, context);
}

function pinOf(record: RowRecord, own: EndPoint, context: EntryContext): PinEntry | undefined {
  if (own.kind !== "contact") return undefined;
  const terminalMm = readMeasure(record, "terminalSize", context, []);
  const net = record.text("net");
  const unused = net !== "" && isUnusedSignal(net) && !speaksOfWire(record) ? net : "";
  const note = [record.text("function"), unused].filter((text) => text !== "").join(". ");
  return { point: own, note, terminalMm, mate: record.text("mate"), at: record.at() };
}

/** The wire that rows with the same wire id make; none if there are too many ends. */
function namedWire(id: string, rows: readonly WireRow[], context: EntryContext): readonly WireEntry[] {
  const [first] = rows;
  if (!first) return [];
  const ends = new Map<string, EndPoint>();
  for (const { own, other } of rows) {
    ends.set(pointText(own), own);
    if (other) ends.set(pointText(other), other);
  }
  const [from, to, third] = [...ends.values()];
  if (third || (rows.length > 2 && rows.some((row) => row.other === undefined))) {
    const numbers = rows.map((row) => row.record.row).join(", ");
    context.report(importProblem("wire-many-ends", first.record.at("wire"), { wire: id, rows: numbers }));
    return [];
  }
  compareRows(id, rows, context);
  // What only the row of the other pin says counts as well.
  const facts = rows.reduceRight<WireFacts>((known, row) => ({ ...known, ...row.facts }), {});
  return [entry(id, { ...first, facts }, [from ?? first.own, to])];
}

function unnamedWires(rows: readonly WireRow[]): readonly WireEntry[] {
  const wires = new Map<string, WireEntry>();
  for (const row of rows) {
    const ends: EntryEnds = [row.own, row.other];
    // The rows of both its pins speak of the same wire.
    const key = `${endsText(ends)}\u0001${row.facts.when ?? ""}`;
    const known = wires.get(key);
    wires.set(key, known ? { ...known, facts: { ...row.facts, ...known.facts } } : entry("", row, ends));
  }
  return [...wires.values()];
}

function entry(id: string, { record, facts }: WireRow, ends: EntryEnds): WireEntry {
  return { id, ends, facts, netKind: record.text("netKind"), at: record.at() };
}

const COMPARED = { colour: "colour", crossSectionMm2: "size", lengthMm: "length", net: "signal", when: "option" };

function compareRows(id: string, rows: readonly WireRow[], context: EntryContext): void {
  const [first, ...others] = rows;
  for (const row of others) {
    for (const [name, what] of Object.entries(COMPARED) as [keyof typeof COMPARED, string][]) {
      const [before, now] = [first?.facts[name], row.facts[name]];
      if (before === now || before === undefined || now === undefined) continue;
      const facts = { wire: id, what, first: String(before), second: String(now) };
      context.report(importProblem("wire-rows-differ", row.record.at(), facts));
    }
  }
}

/**
 * Reads a table with a row for each wire. A wire that is given twice with the same ends counts once; one of which the row names one end
 * only is kept with its far end open.
 */
function* entriesOfWireRows(records: readonly RowRecord[], context: EntryContext): EntryReading {
  const wires: WireEntry[] = [];
  const known = new Map<string, { readonly ends: string; readonly row: number }>();
  for (const [number, record] of records.entries()) {
    if (number % ROWS_A_STEP === ROWS_A_STEP - 1) yield number / records.length;
    const id = record.text("wire");
    const ends = endsOf(record, context);
    if (!ends) continue;
    const before = id === "" ? undefined : known.get(id);
    if (before && before.ends !== endsText(ends))
      context.report(importProblem("wire-twice", record.at("wire"), { wire: id, row: String(before.row) }));
    if (before) continue;
    if (!ends[1]) {
      const facts = { wire: id || `of row ${record.row}`, pin: showPoint(ends[0]) };
      context.report(importProblem("wire-one-end", record.at(), facts));
    }
    known.set(id, { ends: endsText(ends), row: record.row });
    wires.push({ id, ends, facts: readWireFacts(record, context), netKind: record.text("netKind"), at: record.at() });
  }
  return { wires, pins: [] };
}

/** The ends that a row names; undefined where it names none, or one that cannot be read. */
function endsOf(record: RowRecord, context: EntryContext): EntryEnds | undefined {
  const texts = (["from", "to"] as const).flatMap((side) => endTextOf(record, side, context.endSeparator) ?? []);
  if (texts.length === 0) {
    context.report(importProblem("end-missing", record.at(), { wire: record.text("wire") || `of row ${record.row}` }));
    return undefined;
  }
  const points = texts.map((text) => pointOf(text, record, context));
  const [first, second] = points;
  return first && points.every((point) => point !== undefined) ? [first, second] : undefined;
}

function pointOf(text: EndText, record: RowRecord, context: EntryContext): EndPoint | undefined {
  const point = context.namer.point(text, record.at());
  if (!point.ok) context.report(point.error);
  return point.ok ? point.value : undefined;
}

/** What rows are read with. */
interface EntryContext extends FactContext {
  readonly namer: PointNamer;
  readonly endSeparator: string | undefined;
}

/** Reading rows, in steps that tell the share done. */
type EntryReading = Generator<number, TableEntries, void>;

/** Rows that are read, or wires that are put into a draft, between two chances to stop: a fraction of a second. */
export const ROWS_A_STEP = 4096;
