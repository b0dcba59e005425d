import { addTo, naturalOrder } from "../../base/index.ts";
import { importProblem, type ImportPlace } from "../import-problem.ts";
import { looksLikePin } from "./cell-looks.ts";
import {
  connectorName,
  endsText,
  pointText,
  showPoint,
  UNKNOWN_PIN,
  type EndPoint,
  type EntryEnds,
  type PointNamer,
  type TableEntries,
  type WireEntry,
} from "./table-rows.ts";
import type { RowRecord, WireFacts } from "./row-record.ts";
import { isUnusedSignal, type FactContext } from "./wire-facts.ts";

/** What rows are read with. */
export interface EntryContext extends FactContext {
  readonly namer: PointNamer;
  /** Takes the text of a row that became nothing else. */
  readonly unread: (text: string) => void;
}

/** A row that speaks of a wire at a pin. */
export interface WireRow {
  readonly record: RowRecord;
  readonly own: EndPoint;
  readonly other: EndPoint | undefined;
  readonly facts: WireFacts;
  /** Whether the table has a column in which the far end should stand. */
  readonly hasFar: boolean;
}

/**
 * Joins what is said twice: a row of a pin without the far end of its wire adds to the wire that another row has end in that pin. What is
 * left are wires with an open end.
 */
export function withOpenEnds(wires: readonly WireEntry[], context: EntryContext): readonly WireEntry[] {
  const whole = withoutDoubles(
    wires.filter(({ ends }) => ends[1]),
    context,
  );
  const at = new Map<string, number[]>();
  whole.forEach(({ ends }, number) => {
    for (const end of ends) if (end?.kind === "contact") addTo(at, pointText(end), number);
  });
  const open = wires.filter((wire) => {
    if (wire.ends[1]) return false;
    const [number, other] = at.get(pointText(wire.ends[0])) ?? [];
    const known = number === undefined ? undefined : whole[number];
    const isSame = known && other === undefined && (known.id === "" || wire.id === "" || known.id === wire.id);
    const isOther =
      known?.facts.colour !== undefined && wire.facts.colour !== undefined && known.facts.colour !== wire.facts.colour;
    if (!isSame || isOther || number === undefined) return true;
    whole[number] = {
      ...known,
      id: known.id === "" ? wire.id : known.id,
      facts: { ...wire.facts, ...known.facts },
      netKind: known.netKind === "" ? wire.netKind : known.netKind,
    };
    return false;
  });
  for (const { id, facts, ends, at: place } of open.filter(({ hasFar }) => hasFar === true)) {
    const wire = id || facts.net || facts.colour || "without a name";
    context.report(importProblem("wire-one-end", place, { wire, pin: showPoint(ends[0]), reason: "" }));
  }
  const summed = open.filter(({ hasFar }) => hasFar === false).length;
  if (summed > 0) context.report(importProblem("far-ends-absent", {}, { wires: summed }));
  return [...whole, ...open];
}

/** A splice that one wire goes to joins nothing: it is kept as a terminal stud, and told. */
export function withoutLoneSplices(wires: readonly WireEntry[], context: EntryContext): readonly WireEntry[] {
  const legs = new Map<string, number>();
  for (const end of wires.flatMap(({ ends }) => ends))
    if (end?.kind === "splice") legs.set(end.id, (legs.get(end.id) ?? 0) + 1);
  const stud = (end: EndPoint, at: ImportPlace): EndPoint => {
    if (end.kind !== "splice" || (legs.get(end.id) ?? 0) > 1) return end;
    context.report(importProblem("splice-one-wire", at, { splice: end.id.slice(0, 80) }));
    return { kind: "stud", id: end.id, role: "terminal", component: "" };
  };
  if (![...legs.values()].includes(1)) return wires;
  return wires.map((wire) => {
    const [first, second] = wire.ends;
    return { ...wire, ends: [stud(first, wire.at), second && stud(second, wire.at)] };
  });
}

/** Wires of one id with the same ends are one; with other ends they are told, and both are kept. */
function withoutDoubles(wires: readonly WireEntry[], context: EntryContext): WireEntry[] {
  const known = new Map<string, WireEntry>();
  return wires.filter((wire) => {
    if (wire.id === "") return true;
    const before = known.get(wire.id);
    if (!before) known.set(wire.id, wire);
    else if (endsText(before.ends) === endsText(wire.ends)) return false;
    else context.report(importProblem("wire-twice", wire.at, { wire: wire.id, row: String(before.at.row ?? "") }));
    return true;
  });
}

/** The wire that rows with the same wire id make; each row keeps its own where they are too many. */
export function namedWire(id: string, rows: readonly WireRow[], context: EntryContext): readonly WireEntry[] {
  const [first] = rows;
  if (!first) return [];
  const ends = new Map<string, EndPoint>();
  for (const { own, other } of rows) {
    ends.set(pointText(own), own);
    if (other) ends.set(pointText(other), other);
  }
  const [from, to, third] = [...ends.values()];
  if (third) {
    const numbers = rows.map((row) => row.record.row).join(", ");
    context.report(importProblem("wire-many-ends", first.record.at("wire"), { wire: id, rows: numbers }));
    return rows.map((row) => entry(id, { ...row, facts: { net: id, ...row.facts } }, [row.own, row.other]));
  }
  compareRows(id, rows, context);
  // What only the row of the other pin says counts as well.
  const facts = rows.reduceRight<WireFacts>((known, row) => ({ ...known, ...row.facts }), {});
  return [entry(id, { ...first, facts }, [from ?? first.own, to])];
}

/** The wires of rows without a wire id. */
export function unnamedWires(rows: readonly WireRow[], context: EntryContext): readonly WireEntry[] {
  const wires = new Map<string, WireEntry>();
  for (const row of rows) {
    const ends: EntryEnds = [row.own, row.other];
    // The rows of both its pins speak of the same wire; two open wires at one pin are two.
    const open = row.other ? "" : `${row.facts.colour ?? ""}\u0001${row.facts.net ?? ""}`;
    const key = `${endsText(ends)}\u0001${row.facts.when ?? ""}\u0001${open}`;
    const known = wires.get(key);
    const [before, now] = [known?.facts.colour, row.facts.colour];
    if (before !== undefined && now !== undefined && before !== now) {
      const wire = [row.own, row.other].flatMap((end) => (end ? [showPoint(end)] : [])).join(" - ");
      const facts = { wire, what: "colour", first: before, second: now };
      context.report(importProblem("wire-rows-differ", row.record.at(), facts));
    }
    wires.set(key, known ? { ...known, facts: { ...row.facts, ...known.facts } } : entry("", row, ends));
  }
  return [...wires.values()];
}

function entry(id: string, { record, facts, hasFar }: WireRow, ends: EntryEnds): WireEntry {
  const named = ends[1] || facts.net !== undefined ? facts : withFunction(facts, record);
  return { id, ends, facts: named, netKind: record.text("netKind"), at: record.at(), hasFar };
}

/** A wire with one end is called by the function of its pin, where no signal is given. */
function withFunction(facts: WireFacts, record: RowRecord): WireFacts {
  const text = record.text("function");
  return text === "" || isUnusedSignal(text) ? facts : { ...facts, net: text };
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

/** Tells pins that look unlike all others of the tables: a slip of the pen is more likely than such a pin. */
export function tellOddPins({ wires, pins, nets }: TableEntries, context: EntryContext): void {
  const written = new Map<string, ImportPlace>();
  let plain = 0;
  const take = (point: EndPoint | undefined, at: ImportPlace): void => {
    if (point?.kind !== "contact" || point.pin.startsWith(UNKNOWN_PIN)) return;
    if (looksLikePin(point.pin, true)) plain += 1;
    else if (!written.has(point.pin)) written.set(point.pin, at);
  };
  for (const { ends, at } of wires) for (const end of ends) take(end, at);
  for (const { point, at } of pins) take(point, at);
  for (const { points, at } of nets) for (const point of points) take(point, at);
  if (plain < 3 || written.size * 4 > plain) return;
  for (const [pin, at] of written) context.report(importProblem("pin-odd", at, { pin: pin.slice(0, 80) }));
}

/** Tells signals that wires with one end have on several connectors, in colours that differ. */
export function tellColours(wires: readonly WireEntry[], context: EntryContext): void {
  const groups = new Map<string, WireEntry[]>();
  for (const wire of wires) {
    const { net, colour } = wire.facts;
    if (wire.ends[1] || net === undefined || colour === undefined || wire.ends[0].kind !== "contact") continue;
    addTo(groups, net.toUpperCase().replace(/\s+/gu, " "), wire);
  }
  for (const group of groups.values()) {
    const colours = [...new Set(group.map(({ facts }) => facts.colour ?? ""))].sort(naturalOrder);
    const owners = new Set(group.map(({ ends }) => (ends[0].kind === "contact" ? connectorName(ends[0]) : "")));
    const odd = group.find(({ facts }) => facts.colour !== group[0]?.facts.colour);
    if (!odd || owners.size < 2) continue;
    const facts = { net: group[0]?.facts.net ?? "", colours: colours.join(", ") };
    context.report(importProblem("colours-differ", odd.at, facts));
  }
}
