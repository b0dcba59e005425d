import { addTo, naturalOrder } from "../../base/index.ts";
import { importProblem, type ImportPlace } from "../import-problem.ts";
import { isPlaceholder, looksLikePin, splitArrow, splitPoints } from "./cell-looks.ts";
import {
  connectorName,
  endTextOf,
  endsText,
  pointText,
  showPoint,
  splitEnd,
  UNKNOWN_PIN,
  type EndPoint,
  type EndText,
  type EntryEnds,
  type NetEntry,
  type PinEntry,
  type PointNamer,
  type RowRecord,
  type TableEntries,
  type WireEntry,
  type WireFacts,
} from "./table-rows.ts";
import type { ReadBlock } from "./understand-tables.ts";
import { isUnconnected, isUnusedSignal, readMeasure, readWireFacts, type FactContext } from "./wire-facts.ts";

/** What rows are read with. */
export interface EntryContext extends FactContext {
  readonly namer: PointNamer;
  /** Takes the text of a row that became nothing else. */
  readonly unread: (text: string) => void;
}

/** A row that speaks of a wire at a pin. */
interface WireRow {
  readonly record: RowRecord;
  readonly own: EndPoint;
  readonly other: EndPoint | undefined;
  readonly facts: WireFacts;
  /** Whether the table has a column in which the far end should stand. */
  readonly hasFar: boolean;
}

/** What has been read so far, of all blocks. */
interface Gathered {
  readonly pins: PinEntry[];
  readonly named: Map<string, WireRow[]>;
  readonly unnamed: WireRow[];
  readonly whole: WireEntry[];
  /** Rows of terminals with a wire on one of their two sides. */
  readonly oneSided: RowRecord[];
  readonly nets: Map<string, { points: Map<string, EndPoint>; at: ImportPlace }>;
}

/** Rows that are read between two chances to stop: a fraction of a second. */
export const ROWS_A_STEP = 4096;

/**
 * Reads the rows of all blocks, one by one: a row that cannot be read is reported and its text kept, and keeps no other row from being read.
 * In steps that tell the share done.
 *
 * @param mostRows Read no more than so many rows of each block; absent means all.
 */
export function* readRows(
  blocks: readonly ReadBlock[],
  context: EntryContext,
  mostRows?: number,
): Generator<number, TableEntries, void> {
  const gathered: Gathered = { pins: [], named: new Map(), unnamed: [], whole: [], oneSided: [], nets: new Map() };
  const total = Math.max(
    1,
    blocks.reduce((sum, { records }) => sum + records.length, 0),
  );
  let done = 0;
  for (const block of blocks) {
    const own: EntryContext = { ...context, columns: block.columns };
    const ids = wireIds(block);
    for (const record of block.records.slice(0, mostRows)) {
      if (++done % ROWS_A_STEP === 0) yield done / total;
      const given: RowGiven = { record, block, context: own, id: ids ? record.text("wire") : "" };
      if (block.isNetList) readNetRow(given, gathered);
      else if (block.block.mapping.shape === "wire") readWireRow(given, gathered);
      else readPinRow(given, gathered);
    }
  }
  const wires = [
    ...gathered.whole,
    ...[...gathered.named].flatMap(([id, rows]) => namedWire(id, rows, context)),
    ...unnamedWires(gathered.unnamed, context),
  ];
  const nets = netsOf(gathered, context);
  const read = withoutLoneSplices(withOpenEnds(wires, context), context);
  tellColours(read, context);
  tellOddPins({ wires: read, pins: gathered.pins, nets }, context);
  const { length: oneSided } = gathered.oneSided;
  if (oneSided > 0) context.report(importProblem("terminals-one-sided", {}, { terminals: oneSided }));
  return { wires: read, pins: gathered.pins, nets };
}

interface RowGiven {
  readonly record: RowRecord;
  readonly block: ReadBlock;
  readonly context: EntryContext;
  /** Id of the wire; empty where the row gives none. */
  readonly id: string;
}

/** Whether a column of wire numbers tells wires apart: numbers that only count the pins of the table are none. */
function wireIds({ records, columns, block }: ReadBlock): boolean {
  if (!columns.has("wire")) return false;
  if (block.mapping.shape === "wire") return true;
  const given = records.filter((record) => record.text("wire") !== "");
  const same = given.filter((record) => record.text("wire") === record.text("pin")).length;
  return given.length < 2 || same * 5 < given.length * 4;
}

/** Keeps the text of a row that could not be read. */
function keepRow({ record, context }: RowGiven): void {
  const { sheet, row } = record.at();
  context.unread(`${sheet === undefined ? "" : `Sheet ${sheet}, `}row ${row ?? 0} not read: ${record.whole()}`);
}

/** The point a text names; undefined where it is not known or cannot be read, which is told. */
function pointOf(end: EndText | undefined, { record, context }: RowGiven): EndPoint | undefined {
  if (!end) return undefined;
  const point = context.namer.point(end, record.at());
  if (point === undefined || !("code" in point)) return point;
  context.report(point);
  return undefined;
}

const bareEnd = (text: string, separator: string | undefined): EndText => ({
  ...{ type: "", component: "", side: "" },
  ...splitEnd(text, separator),
});

/** Reads a row of a list of nets: a net and one or more of its points. */
function readNetRow(given: RowGiven, { nets, pins }: Gathered): void {
  const { record, block } = given;
  const texts = splitPoints(record.text("point"));
  const columns = endTextOf(record, "own", undefined);
  const ends = texts.length > 0 ? texts.map((text) => bareEnd(text, block.separator)) : columns ? [columns] : [];
  const points = ends.flatMap((end) => pointOf(end, given) ?? []);
  for (const end of ends.filter(isPlaceholderEnd))
    given.context.report(importProblem("pin-missing", record.at("point"), { connector: textOfEnd(end) }));
  if (ends.length === 0) given.context.report(importProblem("pin-missing", record.at("point"), { connector: "" }));
  if (points.length < Math.max(1, ends.length)) keepRow(given);
  const name = record.text("net");
  if (name === "" && points.length > 0) {
    given.context.report(importProblem("net-missing", record.at("net"), {}));
    keepRow(given);
  }
  const known = nets.get(name) ?? { points: new Map<string, EndPoint>(), at: record.at() };
  nets.set(name, known);
  const note = [record.text("note"), ...record.rest()].filter((text) => text !== "").join(". ");
  for (const point of points) {
    known.points.set(pointText(point), point);
    if (point.kind === "contact") pins.push({ point, note, terminalMm: undefined, mate: "", at: record.at() });
  }
}

/** The nets that have points to join; one with a single point, or with a name such as "not used", is told. */
function netsOf({ nets, pins }: Gathered, context: EntryContext): readonly NetEntry[] {
  return [...nets].flatMap(([name, { points, at }]) => {
    const all = [...points.values()];
    const [only, second] = all;
    if (!only) return [];
    const isName = name !== "" && !isUnusedSignal(name);
    if (second && isName) return [{ name, points: all, at }];
    if (name === "") return [];
    context.report(importProblem("net-one-point", at, { net: name.slice(0, 80), points: all.length }));
    pins.forEach((pin, place) => {
      if (!points.has(pointText(pin.point))) return;
      pins[place] = { ...pin, note: [pin.note, `Net ${name}`].filter((text) => text !== "").join(". ") };
    });
    return [];
  });
}

/** Reads a row that gives a wire with its two ends. */
function readWireRow(given: RowGiven, gathered: Gathered): void {
  const { record, block, context, id } = given;
  const both = splitArrow(record.text("ends"));
  const texts = both
    ? both.map((text) => bareEnd(text, block.separator))
    : (["from", "to"] as const).map((side) => endTextOf(record, side, block.separator));
  const named = texts.filter((text) => text !== undefined);
  const points = named.map((text) => pointOf(text, given));
  const [first, second] = points.filter((point) => point !== undefined);
  if (!first) {
    const isEmpty = named.length === 0;
    if (isEmpty) context.report(importProblem("end-missing", record.at(), { wire: id || `of row ${record.row}` }));
    else if (points.every((point) => point === undefined) && named.every(isPlaceholderEnd))
      context.report(importProblem("end-missing", record.at(), { wire: id || `of row ${record.row}` }));
    keepRow(given);
    return;
  }
  const facts = factsOf(
    given,
    named.filter((_, at) => points[at] === undefined),
  );
  const isUnused = isUnusedRow(record, second !== undefined) && id === "" && facts.colour === undefined;
  const at = record.at();
  if (isUnused) {
    for (const point of [first, second])
      if (point?.kind === "contact")
        gathered.pins.push({
          point,
          note: record.text("net") || record.text("note"),
          terminalMm: undefined,
          mate: "",
          at,
        });
    return;
  }
  if (second && pointText(first) === pointText(second)) {
    context.report(importProblem("wire-joins-itself", at, { at: showPoint(first) }));
    keepRow(given);
    return;
  }
  if (!second) {
    const reason = named.length === 2 ? textOfEnd(named.find((_, place) => points[place] === undefined)) : "";
    context.report(
      importProblem("wire-one-end", at, { wire: nameOf(id, facts, record), pin: showPoint(first), reason }),
    );
  }
  gathered.whole.push({ id, ends: [first, second], facts, netKind: record.text("netKind"), at });
}

function isPlaceholderEnd(end: EndText): boolean {
  return isPlaceholder(end.connector === "" ? end.component : end.connector);
}

function nameOf(id: string, facts: WireFacts, record: RowRecord): string {
  return id || facts.net || facts.colour || `of row ${record.row}`;
}

function textOfEnd(end: EndText | undefined): string {
  return end
    ? [end.component, end.connector, end.pin]
        .filter((text) => text !== "")
        .join(" ")
        .slice(0, 80)
    : "";
}

/** Whether a row says that its pin is not connected; "spare" between two ends is a wire that is there. */
function isUnusedRow(record: RowRecord, hasBoth: boolean): boolean {
  const texts = [record.text("net"), record.text("function")].filter((text) => text !== "");
  return texts.some((text) => (hasBoth ? isUnconnected(text) : isUnusedSignal(text)));
}

/** What a row says of its wire; "not used" is no net, and an end that is no point stays in the note. */
function factsOf({ record, context }: RowGiven, ends: readonly EndText[]): WireFacts {
  const { net, note, ...facts } = readWireFacts(record, context);
  const isNet = net !== undefined && !isUnusedSignal(net);
  const far = ends.map(textOfEnd).filter((text) => text !== "");
  const notes = [note, isNet ? undefined : net, far.length > 0 ? `Far end as written: ${far.join(", ")}` : undefined];
  const text = notes.filter((each) => each !== undefined && each !== "").join(". ");
  return { ...facts, ...(isNet ? { net } : {}), ...(text === "" ? {} : { note: text }) };
}

/** Reads a row about a pin, and the wire or wires that it names there. */
function readPinRow(given: RowGiven, gathered: Gathered): void {
  const { record, block, context, id } = given;
  const own = ownPoint(given);
  if (!own) {
    keepRow(given);
    return;
  }
  const splice = record.text("splice");
  const far = endTextOf(record, "to", block.separator);
  const other: EndPoint | undefined = splice === "" ? pointOf(far, given) : { kind: "splice", id: splice };
  const isUnused = isUnusedRow(record, other !== undefined);
  const hasWire = other !== undefined || id !== "" || speaksOfWire(record, isUnused);
  if (own.kind === "contact") gathered.pins.push(pinOf(given, own, hasWire));
  const hasFar = ["to", "toConnector", "toComponent", "splice"].some((field) => block.columns.has(field as "to"));
  const isNotFar = other === undefined && far !== undefined;
  if (hasWire || (isNotFar && !isPlaceholderEnd(far))) {
    const facts = factsOf(given, isNotFar ? [far] : []);
    const row: WireRow = { record, own, other, facts, hasFar };
    if (other && pointText(own) === pointText(other))
      context.report(importProblem("wire-joins-itself", record.at(), { at: showPoint(own) }));
    else if (id === "") gathered.unnamed.push(row);
    else addTo(gathered.named, id, row);
  }
  const second = record.text("toOther");
  const beyond = second === "" ? undefined : pointOf(bareEnd(second, block.separator), given);
  if (block.columns.has("toOther") && (other === undefined) !== (beyond === undefined)) gathered.oneSided.push(record);
  if (!beyond) return;
  const net = record.text("net");
  gathered.unnamed.push({ record, own, other: beyond, facts: net === "" ? {} : { net }, hasFar });
}

function speaksOfWire(record: RowRecord, isUnused: boolean): boolean {
  if (record.text("colour") !== "" && !isPlaceholder(record.text("colour"))) return true;
  if (isUnused) return false;
  const fields = ["crossSection", "cable", "length", "net"] as const;
  return fields.some((field) => !isPlaceholder(record.text(field)));
}

function ownPoint(given: RowGiven): EndPoint | undefined {
  const { record, block, context } = given;
  const text = record.text("point");
  const columns = endTextOf(record, "own", undefined);
  const end = text === "" ? columns : { ...bareEnd(text, block.separator), type: record.text("type") };
  const nothing: EndText = { type: record.text("type"), component: "", connector: "", side: "", pin: "" };
  const named = end ?? nothing;
  const isNameless = named.connector === "" && named.component === "";
  const point = context.namer.point(
    isNameless ? { ...named, connector: block.connector(record.row) } : named,
    record.at(),
  );
  const isBare = named.type === "" && named.pin === "";
  if (point !== undefined && "code" in point) context.report(point);
  // The row is about a pin, so what is missing is the pin.
  else if (point === undefined || (isBare && text === ""))
    context.report(importProblem("pin-missing", record.at(), { connector: named.connector }));
  else return point;
  return undefined;
}

function pinOf({ record, context }: RowGiven, own: Extract<EndPoint, { kind: "contact" }>, hasWire: boolean): PinEntry {
  const terminalMm = readMeasure(record, "terminalSize", context, []);
  const net = record.text("net");
  const rest = hasWire ? [] : [net, record.text("note"), ...record.rest()];
  const note = [record.text("function"), ...rest].filter((text) => text !== "").join(". ");
  return { point: own, note, terminalMm, mate: record.text("mate"), at: record.at() };
}

/**
 * Joins what is said twice: a row of a pin without the far end of its wire adds to the wire that another row has end in that pin. What is
 * left are wires with an open end.
 */
function withOpenEnds(wires: readonly WireEntry[], context: EntryContext): readonly WireEntry[] {
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
function withoutLoneSplices(wires: readonly WireEntry[], context: EntryContext): readonly WireEntry[] {
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
function namedWire(id: string, rows: readonly WireRow[], context: EntryContext): readonly WireEntry[] {
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

function unnamedWires(rows: readonly WireRow[], context: EntryContext): readonly WireEntry[] {
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
function tellOddPins({ wires, pins, nets }: TableEntries, context: EntryContext): void {
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
function tellColours(wires: readonly WireEntry[], context: EntryContext): void {
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
