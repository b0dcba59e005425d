import { importProblem } from "../import-problem.ts";
import { endTextOf, type EndPoint } from "./end-text.ts";
import { ROWS_A_STEP, type EntryContext, type EntryReading } from "./entry-context.ts";
import type { RowRecord } from "./row-records.ts";
import { endsText, pointText, showPoint, type EntryEnds, type PinEntry, type WireEntry } from "./table-entries.ts";
import { isUnusedSignal } from "./unused-signal.ts";
import { readMeasure, readWireFacts, type WireFacts } from "./wire-facts.ts";

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
export function* entriesOfPinRows(records: readonly RowRecord[], context: EntryContext): EntryReading {
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
  const point = context.namer.point(
    text ?? { type: record.text("type"), component: "", connector: "", half: "", pin: "" },
    record.at(),
  );
  if (point.ok) return point.value;
  // The row is about a pin, so what is missing is the pin.
  const isUnclear = point.error.code === "end-unclear";
  context.report(
    isUnclear ? importProblem("pin-missing", record.at(), { connector: text?.connector ?? "" }) : point.error,
  );
  return undefined;
}

function otherPoint(record: RowRecord, context: EntryContext): EndPoint | undefined {
  const splice = record.text("splice");
  if (splice !== "") return { kind: "splice", id: splice };
  const text = endTextOf(record, "to", context.endSeparator);
  const point = text && context.namer.point(text, record.at());
  if (point?.ok === false) context.report(point.error);
  return point?.ok === true ? point.value : undefined;
}

function pinOf(record: RowRecord, own: EndPoint, context: EntryContext): PinEntry | undefined {
  if (own.kind !== "contact") return undefined;
  const written: string[] = [];
  const terminalMm = readMeasure(record, { field: "terminalSize", sort: "length", context, asWritten: written });
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

const COMPARED = [
  ["colour", "colour"],
  ["crossSectionMm2", "size"],
  ["lengthMm", "length"],
  ["net", "signal"],
  ["when", "option"],
] as const;

function compareRows(id: string, rows: readonly WireRow[], context: EntryContext): void {
  const [first, ...others] = rows;
  for (const row of others) {
    for (const [name, what] of COMPARED) {
      const [before, now] = [first?.facts[name], row.facts[name]];
      if (before === now || before === undefined || now === undefined) continue;
      const facts = { wire: id, what, first: String(before), second: String(now) };
      context.report(importProblem("wire-rows-differ", row.record.at(), facts));
    }
  }
}
