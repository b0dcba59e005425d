import {
  fitBuild,
  makeFitting,
  pointKey,
  type AddressBook,
  type HarnessDocument,
  type Wire,
  endAddresses,
  lookUpPoint,
  type Net,
  type Point,
} from "../../model/index.ts";
import { writeCsv, type CellValue } from "../csv.ts";
import { type ImportProblem, importProblem } from "../import-problem.ts";
import { writeWorkbook } from "../xlsx/write-workbook.ts";
import { type TableShape, columnOf, PIN_TABLE_COLUMNS, type ColumnField } from "./columns.ts";

/** What is to be written as a plain table. */
export interface WriteTableOptions {
  readonly shape: TableShape;
  /** Only what is fitted in this build, without an option column; absent means everything, with its options. */
  readonly build?: string;
}

/** A plain table ready to be saved, and what it could not hold. */
export interface WrittenTable<Content> {
  readonly content: Content;
  readonly problems: readonly ImportProblem[];
}

/**
 * Lays a harness out as one plain table: a row for each pin, or a row for each wire. It holds contacts, wires, splices and studs with
 * their options; what it cannot hold is listed.
 *
 * @param document A checked document.
 * @param options Which shape, and which build if not all.
 * @returns The rows, headings first.
 * @throws RangeError if there is no such build.
 */
export function tableRows(
  document: HarnessDocument,
  options: WriteTableOptions,
): WrittenTable<readonly (readonly CellValue[])[]> {
  const build = document.builds.find((each) => options.build === undefined || each.id === options.build);
  const harness = build && fitBuild(document, build.id);
  if (!harness) throw new RangeError(`There is no build "${options.build ?? ""}"`);
  const isFitted = makeFitting(harness.build);
  const isWanted = (when: string | undefined): boolean => options.build === undefined || isFitted(when);
  const wires = document.wires.filter((wire) => isWanted(wire.when));
  const context: RowContext = {
    document,
    book: harness.book,
    wires,
    isWanted,
    hidesOptions: options.build !== undefined,
  };
  const rows = options.shape === "wire" ? wireRows(context) : pinRows(context);
  return { content: layOutRows(options.shape, rows), problems: tableLosses(document) };
}

/** Writes a harness as one plain CSV table; see `tableRows`. */
export function writeTableCsv(document: HarnessDocument, options: WriteTableOptions): WrittenTable<string> {
  const { content, problems } = tableRows(document, options);
  return { content: writeCsv(content), problems };
}

/** Writes a harness as one plain table in a workbook; see `tableRows`. */
export function writeTableXlsx(document: HarnessDocument, options: WriteTableOptions): WrittenTable<Uint8Array> {
  const { content, problems } = tableRows(document, options);
  const name = options.shape === "wire" ? "Wires" : "Pins";
  return { content: writeWorkbook([{ name, rows: content }]), problems };
}

interface RowContext {
  readonly document: HarnessDocument;
  readonly book: AddressBook;
  readonly wires: readonly Wire[];
  readonly isWanted: (when: string | undefined) => boolean;
  readonly hidesOptions: boolean;
}

function factsOf(context: RowContext): (wire: Wire) => RowCells {
  const nets = new Map(context.document.nets.map((net) => [net.id, net]));
  return (wire) => {
    const cells = new Map(wireCells(wire, nets));
    if (context.hidesOptions) cells.delete("option");
    return cells;
  };
}

function wireRows(context: RowContext): readonly RowCells[] {
  const facts = factsOf(context);
  return context.wires.map((wire) => {
    const [from, to] = wireEnds(context.book, wire);
    return new Map([...facts(wire), ...endCells(from, "from"), ...endCells(to, "to")]);
  });
}

function pinRows(context: RowContext): readonly RowCells[] {
  const { document, book, wires, isWanted } = context;
  const facts = factsOf(context);
  const rowsAt = new Map<string, RowCells[]>();
  const loose: RowCells[] = [];
  for (const wire of wires) {
    const [from, to] = wireEnds(book, wire);
    const rows = [
      [from, to],
      [to, from],
    ] as const;
    const atPins = rows.filter(([own]) => own.kind === "contact");
    // A wire between splices or studs has no pin; it gets a row under its first end.
    for (const [own, other] of atPins.length > 0 ? atPins : rows.slice(0, 1)) {
      const row = new Map([...endCells(own, "own"), ...facts(wire), ...endCells(other, "to")]);
      if (own.kind !== "contact") loose.push(row);
      else rowsAt.set(pointKey(own), [...(rowsAt.get(pointKey(own)) ?? []), row]);
    }
  }
  const pins: RowCells[] = [];
  for (const connector of document.connectors) {
    if (!isWanted(connector.when)) continue;
    for (const half of connector.halves) {
      if (!isWanted(half.when)) continue;
      for (const cavity of connector.cavities) {
        const point = { kind: "contact", connector, half, cavity } as const;
        const rows = rowsAt.get(pointKey(point)) ?? [];
        const isThere = half.id !== "device" && half.cavities?.includes(cavity.id) !== false;
        if (rows.length === 0 && !isThere) continue;
        const own = new Map<"function" | "terminalSize", CellValue>();
        if (cavity.note !== undefined) own.set("function", cavity.note);
        if (cavity.terminalMm !== undefined) own.set("terminalSize", cavity.terminalMm);
        for (const row of rows.length > 0 ? rows : [endCells(point, "own")]) pins.push(new Map([...row, ...own]));
      }
    }
  }
  return [...pins, ...loose];
}

/** The cells of one row by field. */
type RowCells = ReadonlyMap<ColumnField, CellValue>;

/** The cells that say where a wire ends: in the columns of the row's own pin, or in those of one of the two ends. */
function endCells(point: Point, side: "own" | "from" | "to"): RowCells {
  const cells = new Map<ColumnField, CellValue>();
  const put = (own: ColumnField, from: ColumnField, to: ColumnField, value: CellValue): void => {
    if (value !== undefined) cells.set(side === "own" ? own : side === "from" ? from : to, value);
  };
  const type = (text: string): void => {
    put("type", "fromType", "toType", text);
  };
  switch (point.kind) {
    case "contact": {
      const { connector, half, cavity } = point;
      put("component", "fromComponent", "toComponent", connector.component);
      put("connector", "fromConnector", "toConnector", connector.id);
      if (half.id !== "harness" || connector.halves.length === 1) put("half", "fromHalf", "toHalf", half.id);
      put("pin", "fromPin", "toPin", cavity.id);
      return cells;
    }
    case "splice":
      type("splice");
      put("connector", "fromConnector", "toConnector", point.splice.id);
      return cells;
    case "stud":
      type(point.stud.role === "terminal" ? "stud" : point.stud.role);
      put("component", "fromComponent", "toComponent", point.stud.component);
      put("connector", "fromConnector", "toConnector", point.stud.id);
      return cells;
    case "open-end":
    case "inner":
      return cells;
  }
}

/** The cells that say what a wire is. */
function wireCells(wire: Wire, nets: ReadonlyMap<string, Net>): RowCells {
  const kind = nets.get(wire.net ?? "")?.kind;
  const cells = new Map<ColumnField, CellValue>();
  const all: readonly (readonly [ColumnField, CellValue])[] = [
    ["wire", wire.id],
    ["colour", wire.colour],
    ["crossSection", wire.crossSectionMm2],
    ["length", wire.lengthMm],
    ["net", wire.net],
    ["netKind", kind],
    ["harness", wire.harness],
    ["group", wire.group],
    ["option", wire.when],
    ["note", wire.note],
  ];
  for (const [field, value] of all) if (value !== undefined) cells.set(field, value);
  return cells;
}

/** Lays rows out under the headings of their shape; columns that no row uses are left out. */
function layOutRows(shape: TableShape, rows: readonly RowCells[]): readonly (readonly CellValue[])[] {
  const fields = PIN_TABLE_COLUMNS.filter(
    ({ field, shapes }) => (shapes as readonly TableShape[]).includes(shape) && rows.some((row) => row.has(field)),
  ).map((column): ColumnField => column.field);
  return [fields.map((field) => columnOf(field).heading), ...rows.map((row) => fields.map((field) => row.get(field)))];
}

/** The points at which a wire of a checked document ends. */
function wireEnds(book: AddressBook, wire: Wire): readonly [Point, Point] {
  const [first, second] = endAddresses(wire).map((address) => {
    const point = lookUpPoint(book, address, { by: "wire" });
    if (point.kind === "none") throw new RangeError(`Wire "${wire.id}" ends nowhere: ${point.reason}`);
    return point;
  });
  if (!first || !second) throw new RangeError(`Wire "${wire.id}" needs two ends`);
  return [first, second];
}

/** What a document holds that one plain table cannot: each sort once, with how many there are. */
function tableLosses(document: HarnessDocument): readonly ImportProblem[] {
  const { components, connectors, wires } = document;
  const sorts: readonly (readonly [what: string, count: number])[] = [
    [
      "the insides of components, so circuits, fuses, relays and readings",
      countOf(components, (part) => part.elements.length > 0),
    ],
    ["names and kinds of components", countOf(components, (part) => part.label !== part.id || part.kind !== "other")],
    ["names of connectors", countOf(connectors, (connector) => connector.label !== connector.id)],
    ["faces of connectors and places of cavities", connectors.length],
    [
      "how connectors are reached and what may be done at them",
      countOf(connectors, (each) => each.access !== undefined),
    ],
    ["contact resistances", countOf(connectors, (each) => each.contactOhm !== undefined)],
    ["options of halves and connectors", countOf(connectors, hasOption)],
    ["routes of wires", countOf(wires, (wire) => wire.route !== undefined)],
    ["places of splices", countOf(document.splices, (splice) => splice.at !== undefined)],
    ["segments of the harness", document.segments.length],
    ["zones", document.zones.length],
    ["names of options", document.options.length],
    ["builds", document.builds.length],
    ["states of the machine", document.states.length],
    ["test adapters", document.adapters.length],
    ["trouble codes", document.codes.length],
    ["cautions", document.cautions.length],
  ];
  return sorts.flatMap(([what, count]) => (count === 0 ? [] : [importProblem("export-loses", {}, { what, count })]));
}

function hasOption(connector: HarnessDocument["connectors"][number]): boolean {
  return connector.when !== undefined || connector.halves.some((half) => half.when !== undefined);
}

function countOf<Thing>(things: readonly Thing[], counts: (thing: Thing) => boolean): number {
  return things.filter(counts).length;
}

const PIN_FIELDS: readonly ColumnField[] = [
  ...([
    "component",
    "connector",
    "half",
    "mate",
    "pin",
    "function",
    "wire",
    "colour",
    "crossSection",
    "length",
  ] as const),
  ...(["net", "toType", "toConnector", "toPin", "option", "note"] as const),
];
const WIRE_FIELDS: readonly ColumnField[] = [
  ...(["wire", "fromComponent", "fromConnector", "fromPin", "toType", "toComponent", "toConnector", "toPin"] as const),
  ...(["colour", "crossSection", "length", "net", "harness", "group", "option", "note"] as const),
];

/** Rows of an invented machine: a sensor with its ground wire going to a splice, and a wire that only one build has. */
const PIN_ROWS: readonly Partial<Record<ColumnField, CellValue>>[] = [
  {
    component: "B3",
    connector: "B3.X",
    pin: "1",
    function: "Supply 5 V",
    wire: "W72",
    colour: "PK",
    crossSection: 0.5,
    length: 510,
    net: "5V-A",
    toConnector: "A1.X1",
    toPin: "20",
  },
  {
    component: "B3",
    connector: "B3.X",
    pin: "2",
    function: "Sensor ground",
    wire: "W73",
    colour: "BN",
    crossSection: 0.5,
    length: 480,
    net: "SGND-A",
    toType: "ground",
    toConnector: "GND-A1",
  },
  {
    component: "B3",
    connector: "B3.X",
    pin: "3",
    function: "Signal",
    wire: "W74",
    colour: "WH/RD",
    crossSection: 0.5,
    length: 560,
    net: "RAIL-P",
    toConnector: "A1.X1",
    toPin: "36",
    option: "OPT-COLD",
    note: "Twisted with W73",
  },
];
const WIRE_ROWS: readonly Partial<Record<ColumnField, CellValue>>[] = [
  {
    wire: "W72",
    fromComponent: "B3",
    fromConnector: "B3.X",
    fromPin: "1",
    toComponent: "A1",
    toConnector: "A1.X1",
    toPin: "20",
    colour: "PK",
    crossSection: 0.5,
    length: 510,
    net: "5V-A",
    harness: "engine",
  },
  {
    wire: "W73",
    fromComponent: "B3",
    fromConnector: "B3.X",
    fromPin: "2",
    toType: "ground",
    toConnector: "GND-A1",
    colour: "BN",
    crossSection: 0.5,
    length: 480,
    net: "SGND-A",
    harness: "engine",
  },
  {
    wire: "W74",
    fromComponent: "B3",
    fromConnector: "B3.X",
    fromPin: "3",
    toComponent: "A1",
    toConnector: "A1.X1",
    toPin: "36",
    colour: "WH/RD",
    crossSection: 0.5,
    length: 560,
    net: "RAIL-P",
    harness: "engine",
    option: "OPT-COLD",
  },
];

/**
 * A CSV table to start from: the usual headings and three rows of invented parts, which are to be overwritten.
 *
 * @param shape A row for each pin, or a row for each wire.
 * @example
 * ```ts
 * import { pinTableTemplate } from "ohmward/formats";
 * expect(pinTableTemplate("wire").split("\r\n")[0]).toContain("Wire,From component,From connector,From pin");
 * ```
 */
export function pinTableTemplate(shape: TableShape): string {
  const fields = shape === "pin" ? PIN_FIELDS : WIRE_FIELDS;
  const rows = shape === "pin" ? PIN_ROWS : WIRE_ROWS;
  return writeCsv([
    fields.map((field) => columnOf(field).heading),
    ...rows.map((row) => fields.map((field) => row[field])),
  ]);
}
