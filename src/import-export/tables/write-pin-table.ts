import {
  fitBuild,
  makeFitting,
  pointKey,
  type AddressBook,
  type HarnessDocument,
  type Wire,
  endAddresses,
  lookUpPoint,
  type Point,
} from "../../harness-model/index.ts";
import { defined } from "../../base/index.ts";
import { writeCsv, type CellValue } from "../csv.ts";
import { type ImportProblem, importProblem } from "../import-problem.ts";
import { writeWorkbook } from "../xlsx/write-workbook.ts";
import { columnOf, PIN_TABLE_COLUMNS, type ColumnField, type TableShape } from "./columns.ts";
import { END_FIELDS } from "./table-rows.ts";

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
  const kinds = new Map(document.nets.map((net) => [net.id, net.kind]));
  const facts = (wire: Wire): RowCells => {
    const { id, colour, crossSectionMm2: crossSection, lengthMm: length, net, harness: part, group, note, when } = wire;
    const option = options.build === undefined ? when : undefined;
    const netKind = net && kinds.get(net);
    return cellsOf({ wire: id, colour, crossSection, length, net, netKind, harness: part, group, option, note });
  };
  const context: RowContext = { document, book: harness.book, wires, isWanted, facts };
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
  /** The cells that say what a wire is. */
  readonly facts: (wire: Wire) => RowCells;
}

function wireRows({ book, wires, facts }: RowContext): readonly RowCells[] {
  return wires.map((wire) => {
    const [from, to] = wireEnds(book, wire);
    return new Map([...facts(wire), ...endCells(from, "from"), ...endCells(to, "to")]);
  });
}

function pinRows({ document, book, wires, isWanted, facts }: RowContext): readonly RowCells[] {
  const rowsAt = new Map<string, RowCells[]>();
  const loose: RowCells[] = [];
  for (const wire of wires) {
    const [from, to] = wireEnds(book, wire);
    const rows = [[from, to] as const, [to, from] as const];
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
    for (const side of connector.sides) {
      if (!isWanted(side.when)) continue;
      for (const cavity of connector.cavities) {
        const point = { kind: "contact", connector, side, cavity } as const;
        const rows = rowsAt.get(pointKey(point)) ?? [];
        const isThere = side.id !== "device" && side.cavities?.includes(cavity.id) !== false;
        if (rows.length === 0 && !isThere) continue;
        const own = cellsOf({ function: cavity.note, terminalSize: cavity.terminalMm });
        for (const row of rows.length > 0 ? rows : [endCells(point, "own")]) pins.push(new Map([...row, ...own]));
      }
    }
  }
  return [...pins, ...loose];
}

/** The cells of one row by field. */
type RowCells = ReadonlyMap<ColumnField, CellValue>;

function cellsOf(values: Readonly<Record<string, CellValue>>): RowCells {
  return new Map(Object.entries(defined(values)) as [ColumnField, CellValue][]);
}

/** The cells that say where a wire ends: in the columns of the row's own pin, or in those of one of the two ends. */
function endCells(point: Point, which: keyof typeof END_FIELDS): RowCells {
  const [type, component, connector, side, pin] = END_FIELDS[which];
  if (point.kind === "splice") return cellsOf({ [type]: "splice", [connector]: point.splice.id });
  if (point.kind === "stud") {
    const { id, role, component: owner } = point.stud;
    return cellsOf({ [type]: role === "terminal" ? "stud" : role, [component]: owner, [connector]: id });
  }
  if (point.kind !== "contact") return new Map();
  const { id, component: owner, sides } = point.connector;
  const ownSide = point.side.id !== "harness" || sides.length === 1 ? point.side.id : undefined;
  return cellsOf({ [component]: owner, [connector]: id, [side]: ownSide, [pin]: point.cavity.id });
}

/** Lays rows out under the headings of their shape; columns that no row uses are left out. */
function layOutRows(shape: TableShape, rows: readonly RowCells[]): readonly (readonly CellValue[])[] {
  const fields = PIN_TABLE_COLUMNS.filter(
    ({ field, shapes }) => shapes.includes(shape) && rows.some((row) => row.has(field)),
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
  const isNamed = ({ id, label, kind }: (typeof components)[number]): boolean => label !== id || kind !== "other";
  const hasOption = ({ when, sides }: (typeof connectors)[number]): boolean =>
    when !== undefined || sides.some((side) => side.when !== undefined);
  const sorts: readonly (readonly [what: string, items: readonly unknown[]])[] = [
    [
      "the insides of components, with circuits, fuses, relays and readings",
      components.filter((part) => part.elements[0]),
    ],
    ["names and kinds of components", components.filter(isNamed)],
    ["names of connectors", connectors.filter(({ id, label }) => label !== id)],
    ["faces of connectors and positions of cavities", connectors],
    ["access to connectors and permitted work at them", connectors.filter(({ access }) => access)],
    ["contact resistances", connectors.filter(({ contactOhm }) => contactOhm !== undefined)],
    ["options of connector sides and connectors", connectors.filter(hasOption)],
    ["routes of wires", wires.filter(({ route }) => route)],
    ["positions of splices", document.splices.filter(({ at }) => at)],
    ["harness segments", document.segments],
    ["zones", document.zones],
    ["names of options", document.options],
    ["builds", document.builds],
    ["states of the machine", document.states],
    ["test adapters", document.adapters],
    ["trouble codes", document.codes],
    ["cautions", document.cautions],
  ];
  return sorts.flatMap(([what, { length: count }]) =>
    count === 0 ? [] : [importProblem("export-loses", {}, { what, count })],
  );
}

/** Columns and rows of an invented machine: a sensor with its ground wire going to a splice, and a wire that only one build has. */
const TEMPLATES: Readonly<Record<TableShape, readonly string[]>> = {
  pin: [
    "component|connector|half|mate|pin|function|wire|colour|crossSection|length|net|toType|toConnector|toPin|option|note",
    "B3|B3.X|||1|Supply 5 V|W72|PK|0.5|510|5V-A||A1.X1|20||",
    "B3|B3.X|||2|Sensor ground|W73|BN|0.5|480|SGND-A|ground|GND-A1|||",
    "B3|B3.X|||3|Signal|W74|WH/RD|0.5|560|RAIL-P||A1.X1|36|OPT-COLD|Twisted with W73",
  ],
  wire: [
    "wire|fromComponent|fromConnector|fromPin|toType|toComponent|toConnector|toPin|colour|crossSection|length|net|harness|group|option|note",
    "W72|B3|B3.X|1||A1|A1.X1|20|PK|0.5|510|5V-A|engine|||",
    "W73|B3|B3.X|2|ground||GND-A1||BN|0.5|480|SGND-A|engine|||",
    "W74|B3|B3.X|3||A1|A1.X1|36|WH/RD|0.5|560|RAIL-P|engine||OPT-COLD|",
  ],
};

/**
 * A CSV table to start from: the usual headings and three rows of invented parts, which are to be overwritten.
 *
 * @param shape A row for each pin, or a row for each wire.
 * @example
 * ```ts
 * import { pinTableTemplate } from "ohmward/import-export";
 * expect(pinTableTemplate("wire").split("\r\n")[0]).toContain("Wire,From component,From connector,From pin");
 * ```
 */
export function pinTableTemplate(shape: TableShape): string {
  const [fields = [], ...rows] = TEMPLATES[shape].map((line) => line.split("|"));
  return writeCsv([fields.map((field) => columnOf(field as ColumnField).heading), ...rows]);
}
