import { importProblem } from "../import-problem.ts";
import { endTextOf, type EndPoint } from "./end-text.ts";
import { ROWS_A_STEP, type EntryContext, type EntryReading } from "./entry-context.ts";
import type { RowRecord } from "./row-records.ts";
import { endsText, pointText, showPoint, type PinEntry, type WireEntry } from "./table-entries.ts";
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
 * goes. A wire of which only one end is in the table is left out with a warning, and the pin keeps what was said of it in its note.
 */
export function* entriesOfPinRows(records: readonly RowRecord[], context: EntryContext): EntryReading {
  const pins: { readonly record: RowRecord; readonly pin: PinEntry }[] = [];
  const named = new Map<string, WireRow[]>();
  const unnamed: WireRow[] = [];
  for (const [number, record] of records.entries()) {
    if (number % ROWS_A_STEP === ROWS_A_STEP - 1) yield number / records.length;
    const own = ownPoint(record, context);
    if (!own) continue;
    const other = otherPoint(record, context);
    const hasWire = record.text("wire") !== "" || other !== undefined || record.text("colour") !== "";
    const pin = pinOf(record, own, context);
    if (pin) pins.push({ record, pin });
    if (!hasWire) continue;
    const row: WireRow = { record, own, other, facts: readWireFacts(record, context) };
    const id = record.text("wire");
    const rows = named.get(id) ?? [];
    if (id === "") unnamed.push(row);
    else named.set(id, rows);
    rows.push(row);
  }
  const leftOut = new Map<RowRecord, string>();
  const leaveOut: LeaveOut = (row, name) => {
    context.report(importProblem("wire-one-end", row.record.at(), { wire: name, pin: showPoint(row.own) }));
    leftOut.set(row.record, describeWire(row));
  };
  const wires = [
    ...[...named].flatMap(([id, rows]) => namedWire(id, rows, { context, leaveOut })),
    ...unnamedWires(unnamed, leaveOut),
  ];
  const noted = pins.map(({ record, pin }) => {
    const note = [pin.note, leftOut.get(record) ?? ""].filter((text) => text !== "").join(". ");
    return { ...pin, note };
  });
  return { wires, pins: noted };
}

/** Reports that only one end of a wire is known, and keeps what its row says for the note of the pin. */
type LeaveOut = (row: WireRow, name: string) => void;

function describeWire({ record, facts }: WireRow): string {
  const size = facts.crossSectionMm2 === undefined ? undefined : `${facts.crossSectionMm2} mm²`;
  const known = [record.text("wire"), facts.colour, size, facts.net, facts.note];
  const words = known.filter((text) => text !== undefined && text !== "").join(", ");
  return `Its wire goes to nothing in the table${words === "" ? "" : `: ${words}`}`;
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
  return { point: own, note: record.text("function"), terminalMm, mate: record.text("mate"), at: record.at() };
}

/** The wire that rows with the same wire id make; none if there are too few or too many ends. */
function namedWire(
  id: string,
  rows: readonly WireRow[],
  { context, leaveOut }: { readonly context: EntryContext; readonly leaveOut: LeaveOut },
): readonly WireEntry[] {
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
    leaveOut(first, id);
    return [];
  }
  compareRows(id, rows, context);
  // What only the row of the other pin says counts as well.
  const facts = rows.reduceRight<WireFacts>((known, row) => ({ ...known, ...row.facts }), {});
  return [entry(id, { ...first, facts }, [from, to])];
}

function unnamedWires(rows: readonly WireRow[], leaveOut: LeaveOut): readonly WireEntry[] {
  const wires = new Map<string, WireEntry>();
  for (const row of rows) {
    if (!row.other) {
      leaveOut(row, row.facts.colour ?? "without a name");
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
