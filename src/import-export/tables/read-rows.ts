import { addTo, defined } from "../../base/index.ts";
import { importProblem, type ImportPlace } from "../import-problem.ts";
import { isPlaceholder, splitArrow, splitPoints } from "./cell-looks.ts";
import type { ColumnField } from "./columns.ts";
import {
  namedWire,
  tellColours,
  tellOddPins,
  unnamedWires,
  withOpenEnds,
  withoutLoneSplices,
  type EntryContext,
  type WireRow,
} from "./join-rows.ts";
import {
  endTextOf,
  pointText,
  showPoint,
  splitEnd,
  type EndPoint,
  type EndText,
  type NetEntry,
  type PinEntry,
  type TableEntries,
  type WireEntry,
} from "./table-rows.ts";
import type { RowRecord, WireFacts } from "./row-record.ts";
import type { ReadBlock } from "./table-rows.ts";
import { isUnconnected, isUnusedSignal, readMeasure, readWireFacts } from "./wire-facts.ts";

/** What has been read so far, of all blocks. */
interface Gathered {
  readonly pins: PinEntry[];
  readonly named: Map<string, WireRow[]>;
  readonly unnamed: WireRow[];
  readonly whole: WireEntry[];
  /** Rows of terminals with a wire on one of their two sides. */
  readonly oneSided: RowRecord[];
  /** How many terminals give a colour or size that may be that of either of their two wires. */
  readonly sideUnclear: { n: number };
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
  const gathered: Gathered = {
    pins: [],
    named: new Map(),
    unnamed: [],
    whole: [],
    oneSided: [],
    sideUnclear: { n: 0 },
    nets: new Map(),
  };
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
  const { n: unclear } = gathered.sideUnclear;
  if (unclear > 0) context.report(importProblem("side-unclear", {}, { terminals: unclear }));
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
  const [far = endTextOf(record, "to", block.separator), ...more] = listedEnds(record.text("to"), block.separator);
  const other: EndPoint | undefined = splice === "" ? pointOf(far, given) : { kind: "splice", id: splice };
  const isUnused = isUnusedRow(record, other !== undefined);
  const hasWire = other !== undefined || id !== "" || speaksOfWire(record, isUnused);
  if (own.kind === "contact") gathered.pins.push(pinOf(given, own, hasWire));
  const hasFar = ["to", "toConnector", "toComponent", "splice"].some((field) => block.columns.has(field as "to"));
  const isNotFar = other === undefined && far !== undefined;
  const second = record.text("toOther");
  const beyond = second === "" ? undefined : pointOf(bareEnd(second, block.separator), given);
  const all = hasWire || isNotFar || beyond ? factsOf(given, isNotFar ? [far] : []) : {};
  const [facts, factsBeyond] = beyond ? factsBySide(all, given, gathered) : [all, {}];
  if (hasWire || (isNotFar && !isPlaceholderEnd(far))) {
    const row: WireRow = { record, own, other, facts, hasFar };
    if (other && pointText(own) === pointText(other))
      context.report(importProblem("wire-joins-itself", record.at(), { at: showPoint(own) }));
    else if (id === "") gathered.unnamed.push(row);
    else addTo(gathered.named, id, row);
  }
  if (block.columns.has("toOther") && (other === undefined) !== (beyond === undefined)) gathered.oneSided.push(record);
  for (const end of more) {
    const point = pointOf(end, given);
    if (point) gathered.unnamed.push({ record, own, other: point, facts: all, hasFar });
  }
  if (!beyond) return;
  gathered.unnamed.push({ record, own, other: beyond, facts: factsBeyond, hasFar });
}

/** The ends that one cell lists, each with connector and pin, as `X2-B, X4-C`: a wire goes to each. None where the cell is no such list. */
function listedEnds(text: string, separator: string | undefined): readonly EndText[] {
  const ends = splitPoints(text).map((each) => bareEnd(each, separator));
  return ends.length > 1 && ends.every(({ pin }) => pin !== "") ? ends : [];
}

/**
 * Colour, size and length of a terminal with two far ends belong to the wire whose column stands nearer; where both stand as near, they are
 * those of neither and stay in the note.
 */
function factsBySide(facts: WireFacts, { block }: RowGiven, gathered: Gathered): readonly [WireFacts, WireFacts] {
  const { colour, crossSectionMm2, lengthMm, note, ...common } = facts;
  const own = defined({ colour, crossSectionMm2, lengthMm });
  const noted = note === undefined ? {} : { note };
  const at = (field: ColumnField): number | undefined => block.columns.get(field)?.column;
  const column = at("colour") ?? at("crossSection") ?? at("cable") ?? at("length") ?? 0;
  const far = (field: "to" | "toConnector" | "toOther"): number => Math.abs((at(field) ?? Infinity) - column);
  const nearer = Math.min(far("to"), far("toConnector")) - far("toOther");
  if (nearer < 0) return [facts, common];
  if (nearer > 0) return [common, { ...common, ...own, ...noted }];
  const said = Object.values(own).join(", ");
  if (said === "") return [facts, common];
  gathered.sideUnclear.n += 1;
  const text = [note, `Colour and size of one of its wires: ${said}`].filter((each) => each !== undefined).join(". ");
  return [
    { ...common, note: text },
    { ...common, note: text },
  ];
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
