import { importProblem } from "../import-problem.ts";
import { endTextOf, type EndPoint } from "./end-text.ts";
import type { PointNamer } from "./point-namer.ts";
import type { RowRecord } from "./row-records.ts";
import { endsText, pointText, showPoint, type PinEntry, type TableEntries, type WireEntry } from "./table-entries.ts";
import { readMeasure, readWireFacts, type FactContext, type WireFacts } from "./wire-facts.ts";

/** What rows are read with. */
export interface EntryContext extends FactContext {
  readonly namer: PointNamer;
  readonly endSeparator: string | undefined;
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
 * goes. A wire of which only one end is in the table is left out with a warning, and the pin keeps what was said of it in its note.
 */
export function entriesOfPinRows(records: readonly RowRecord[], context: EntryContext): TableEntries {
  const pins: PinEntry[] = [];
  const named = new Map<string, WireRow[]>();
  const unnamed: WireRow[] = [];
  for (const record of records) {
    const own = ownPoint(record, context);
    if (!own) continue;
    const other = otherPoint(record, context);
    const hasWire = record.text("wire") !== "" || other !== undefined || record.text("colour") !== "";
    const pin = pinOf(record, own, context);
    if (pin) pins.push(pin);
    if (!hasWire) continue;
    const row: WireRow = { record, own, other, facts: readWireFacts(record, context) };
    const id = record.text("wire");
    const rows = named.get(id) ?? [];
    if (id === "") unnamed.push(row);
    else named.set(id, rows);
    rows.push(row);
  }
  const wires = [
    ...[...named].flatMap(([id, rows]) => namedWire(id, rows, context)),
    ...unnamedWires(unnamed, context),
  ];
  return { wires, pins };
}

function ownPoint(record: RowRecord, context: EntryContext): EndPoint | undefined {
  const text = endTextOf(record, "own", undefined);
  const point = context.namer.point(
    text ?? { type: record.text("type"), component: "", connector: "", half: "", pin: "" },
    record.at(),
  );
  if (!point.ok) context.report(point.error);
  return point.ok ? point.value : undefined;
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
  return { point: own, note: record.text("function"), terminalMm, mate: record.text("mate"), at: record.at() };
}

/** The wire that rows with the same wire id make; none if there are too few or too many ends. */
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
  if (!from || !to) {
    context.report(importProblem("wire-one-end", first.record.at(), { wire: id, pin: showPoint(first.own) }));
    return [];
  }
  compareRows(id, rows, context);
  return [entry(id, first, [from, to])];
}

function unnamedWires(rows: readonly WireRow[], context: EntryContext): readonly WireEntry[] {
  const wires = new Map<string, WireEntry>();
  for (const row of rows) {
    if (!row.other) {
      const facts = { wire: row.facts.colour ?? "without a name", pin: showPoint(row.own) };
      context.report(importProblem("wire-one-end", row.record.at(), facts));
      continue;
    }
    const ends: readonly [EndPoint, EndPoint] = [row.own, row.other];
    // The rows of both its pins speak of the same wire.
    const key = `${endsText(ends)}\u0001${row.facts.when ?? ""}`;
    if (!wires.has(key)) wires.set(key, entry("", row, ends));
  }
  return [...wires.values()];
}

function entry(id: string, { record, facts }: WireRow, ends: readonly [EndPoint, EndPoint]): WireEntry {
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
