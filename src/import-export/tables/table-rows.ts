import { partOfName } from "../../harness-model/index.ts";
import { defined, keptIn } from "../../base/index.ts";
import { type ImportPlace, importProblem, type ImportProblem } from "../import-problem.ts";
import { pinOwner } from "./read-heading.ts";
import { isDesignator, isPlaceholder, looksLikePin, splitAt, type SplitEnd } from "./cell-looks.ts";
import type { ColumnField } from "./columns.ts";
import type { Block } from "./find-blocks.ts";
import type { FieldColumn, RowRecord, WireFacts } from "./row-record.ts";
import type { TableOptions } from "./table-options.ts";

/** A block with its rows by the meaning of their columns. */
export interface ReadBlock {
  readonly block: Block;
  readonly records: readonly RowRecord[];
  readonly columns: ReadonlyMap<ColumnField, FieldColumn>;
  /** The connector that all rows are about, where no column says it. */
  readonly connector: (row: number) => string;
  readonly separator: string | undefined;
  /** Whether the rows list the points of nets, and say nothing of wires. */
  readonly isNetList: boolean;
}

/** The columns of a block by field, with their headings. */
export function fieldColumns({ mapping, headings }: Block): ReadonlyMap<ColumnField, FieldColumn> {
  return new Map(
    mapping.columns.map(({ column, field, unit }): [ColumnField, FieldColumn] => [
      field,
      { column, heading: headings[column]?.trim() || String(column + 1), ...defined({ unit }) },
    ]),
  );
}

/** Connectors that no column gives, but the heading of their pins: `M12 pin` for the far end. */
function ownersNamed(columns: ReadonlyMap<ColumnField, FieldColumn>): ReadonlyMap<ColumnField, string> {
  const hasOwner = columns.has("toConnector") || columns.has("toComponent");
  const owner = hasOwner ? undefined : pinOwner(columns.get("toPin")?.heading ?? "");
  return new Map(owner === undefined ? [] : [["toConnector", owner]]);
}

/** The rows of a block, each by the meaning of its columns; rows in which no mapped column holds anything are left out. */
export function rowRecords(block: Block, columns: ReadonlyMap<ColumnField, FieldColumn>): readonly RowRecord[] {
  const filled = fieldsToFill(block, columns);
  const beside = filled.map((field) => columnsBeside(block, columns.get(field)?.column ?? -1)).flat();
  const known = new Map<ColumnField, string>();
  const mapped = new Set([...columns.values()].map(({ column }) => column));
  const unmapped = block.headings.flatMap((heading, column) => (mapped.has(column) ? [] : [{ column, heading }]));
  const named = ownersNamed(columns);
  const records: RowRecord[] = [];
  for (const { row, line, cells, numbers } of block.rows) {
    const written = (field: ColumnField): string => cells[columns.get(field)?.column ?? -1]?.trim() ?? "";
    if (![...columns.keys()].some((field) => written(field) !== "")) continue;
    for (const field of filled) if (written(field) !== "" || begins(cells, beside)) known.set(field, written(field));
    const above = new Map(filled.map((field) => [field, known.get(field) ?? ""]));
    const place: ImportPlace = {
      ...defined({ file: block.table.file, sheet: block.table.sheet }),
      row,
      ...defined({ line }),
    };
    records.push({
      row,
      text: (field) => {
        const pin = PIN_BESIDE.get(field);
        return written(field) || (pin && written(pin) === "" ? "" : (above.get(field) ?? named.get(field) ?? ""));
      },
      heading: (field) => columns.get(field)?.heading ?? field,
      rest: () => restOf(cells, unmapped),
      whole: () =>
        cells
          .map((cell) => cell.trim())
          .filter((cell) => cell !== "")
          .join(" | "),
      isNumber: (field) => numbers?.has(columns.get(field)?.column ?? -1) === true,
      at: (field) => ({ ...place, ...defined({ column: field && columns.get(field)?.heading }) }),
    });
  }
  return records;
}

function restOf(
  cells: readonly string[],
  unmapped: readonly { readonly column: number; readonly heading: string }[],
): readonly string[] {
  return unmapped.flatMap(({ column, heading }) => {
    const text = cells[column]?.trim() ?? "";
    return text === "" ? [] : [heading.trim() === "" ? text : `${heading.trim()}: ${text}`];
  });
}

/** Columns that hold something in the same rows as a column whose empty cells mean the text above, such as a running number. */
function columnsBeside({ rows, headings, mapping }: Block, column: number): readonly number[] {
  const isFilled = (cells: readonly string[], at: number): boolean => (cells[at] ?? "").trim() !== "";
  return headings.flatMap((_, at) => {
    if (at === column || mapping.columns.some((each) => each.column === at && each.field === "note")) return [];
    const same = rows.filter(({ cells }) => isFilled(cells, at) === isFilled(cells, column)).length;
    return same * 10 >= rows.length * 8 ? [at] : [];
  });
}

/** Whether a row begins something new by what stands beside its empty cell. */
function begins(cells: readonly string[], beside: readonly number[]): boolean {
  return beside.some((at) => (cells[at] ?? "").trim() !== "");
}

/** Fields that tables often give on the first of several rows only. */
const FILLABLE = ["net", "component", "connector", "fromComponent", "fromConnector", "toConnector"] as const;
/** The pin that has to stand in a row for its empty cell to mean the connector above. */
const PIN_BESIDE: ReadonlyMap<ColumnField, ColumnField> = new Map([
  ["component", "pin"],
  ["connector", "pin"],
  ["fromComponent", "fromPin"],
  ["fromConnector", "fromPin"],
  ["toConnector", "toPin"],
]);

/**
 * The fields whose empty cells mean the text above: no two rows one after the other give the same text, and several rows give none. A
 * table that repeats its names from row to row has no such field, so that a single empty cell in it stays empty.
 */
export function fieldsToFill(
  { rows, mapping }: Block,
  columns: ReadonlyMap<ColumnField, FieldColumn>,
): readonly ColumnField[] {
  return FILLABLE.filter((field) => {
    const column = columns.get(field)?.column;
    if (column === undefined || (field === "net" && !isBareList(mapping.columns.map((each) => each.field))))
      return false;
    let [blanks, before] = [0, ""];
    const pin = columns.get(PIN_BESIDE.get(field) ?? field)?.column ?? -1;
    for (const { cells } of rows) {
      if (field !== "net" && (cells[pin] ?? "").trim() === "") continue;
      const text = cells[column]?.trim() ?? "";
      if (text !== "" && text === before) return false;
      if (text === "" && before === "") return false;
      if (text === "") blanks += 1;
      else before = text;
    }
    return blanks > 1;
  });
}

/** Fields that say what a single wire is; a list of nets has none of them. */
const WIRE_FIELDS = [
  "wire",
  "colour",
  "crossSection",
  "cable",
  "length",
  "to",
  "toConnector",
  "toPin",
  "function",
  "splice",
];

/** Whether a table says no more than which points belong to which net. */
export function isBareList(fields: readonly string[]): boolean {
  return fields.includes("net") && !fields.some((field) => WIRE_FIELDS.includes(field));
}

/** What a row says about one end of a wire, as written. */
export interface EndText {
  readonly type: string;
  readonly component: string;
  readonly connector: string;
  readonly side: string;
  readonly pin: string;
}

/** What an end is. Ids are those of the file. */
export type EndPoint =
  | ({ readonly kind: "contact" } & Omit<EndText, "type">)
  | { readonly kind: "splice"; readonly id: string }
  | {
      readonly kind: "stud";
      readonly id: string;
      readonly role: "ground" | "supply" | "terminal";
      readonly component: string;
    };

/** The columns that speak of one end of a wire, in one order: of the own pin of a row, of the first end, of the other. */
export const END_FIELDS = {
  own: ["type", "component", "connector", "half", "pin"],
  from: ["fromType", "fromComponent", "fromConnector", "fromHalf", "fromPin"],
  to: ["toType", "toComponent", "toConnector", "toHalf", "toPin"],
} as const;

/** What a row says about one end, taken from its columns; an end in a single cell is taken apart. Undefined if the row names none. */
export function endTextOf(
  { text }: RowRecord,
  which: keyof typeof END_FIELDS,
  separator: string | undefined,
): EndText | undefined {
  const [type, component, connector, side, pin] = END_FIELDS[which];
  const end = {
    type: text(type),
    component: text(component),
    connector: text(connector),
    side: text(side),
    pin: text(pin),
  };
  // Only a type is no end.
  const isEmpty = end.component + end.connector + end.pin === "";
  if (which === "own") return isEmpty ? undefined : end;
  if (!isEmpty) return end.connector !== "" && end.pin === "" ? { ...end, ...splitEnd(end.connector, separator) } : end;
  const whole = text(which);
  return whole === "" ? undefined : { ...end, ...splitEnd(whole, separator) };
}

/** Takes `A1.X1:36` apart at the sign that most cells share, or at a colon; without either the whole is a name. */
export function splitEnd(text: string, separator: string | undefined): SplitEnd {
  for (const sign of separator === undefined || separator === ":" ? [":"] : [separator, ":"]) {
    const parts = splitAt(text, sign);
    const isPin = parts !== undefined && (sign === ":" || looksLikePin(parts.pin, true));
    if (parts && isPin)
      return { connector: withoutSign(parts.connector), pin: parts.pin.replace(/^pin[ _.-]?(?=\w)/iu, "") };
  }
  return { connector: withoutSign(text.trim()), pin: "" };
}

/** A designator without the product sign of IEC 81346: `-X1` is `X1`. */
export function withoutSign(name: string): string {
  return /^[-=+][A-Z]/u.test(name) && isDesignator(name.slice(1)) ? name.slice(1) : name;
}

/** How names of splices begin in several languages. Common practice, no source; reported whenever they are used unconfirmed. */
const SPLICE_PREFIXES = "SP SPL SPLICE SPLEISS EPISSURE EMPALME GIUNZIONE LAS SKARV".split(" ");
/** How names of ground points begin in several languages. Common practice, no source. */
const GROUND_PREFIXES = "GND GROUND EARTH MASSE MASSA MASA TIERRA JORD".split(" ");

const TYPES: ReadonlyMap<string, "contact" | "splice" | "ground" | "supply" | "terminal"> = new Map(
  Object.entries({
    ...{ connector: "contact", contact: "contact", pin: "contact", splice: "splice", ground: "ground" },
    ...{ earth: "ground", supply: "supply", stud: "terminal", terminal: "terminal" },
  } as const),
);

/** How the pin of a contact begins that a table does not give. */
export const UNKNOWN_PIN = "not-known-";

/** A name without a pin that was met, and what it was taken for. */
type Bare = "splice" | "ground" | "stud";

/** What is known of all names of the tables before their ends are read. */
export interface KnownNames {
  /** Names that have pins somewhere. */
  readonly connectors: ReadonlySet<string>;
  /** How often a name stands without a pin. */
  readonly bare: ReadonlyMap<string, number>;
  /** The parts that each connector is named with. */
  readonly owners: ReadonlyMap<string, ReadonlySet<string>>;
}

/** Words for the ground, as alternatives of a pattern. */
const GROUND = "gnd|ground|earth|chassis|masse(?:punkt|band|bolzen|anschluss)?|massa|masa|tierra|terra|jord";
const asWord = (alternatives: string): RegExp => new RegExp(`(?:^|[^\\p{L}])(?:${alternatives})(?![\\p{L}])`, "iu");
/** Words in the name of a point that all wires to it share: ground, chassis, battery post, stud, busbar. */
const COMMON_POINT = asWord(
  `${GROUND}|(?:neg|pos)(?:ative|itive)? ?bus|stud|post|busbar|bus ?bar|sammelschiene|bolzen|0v`,
);
const GROUND_WORD = asWord(`${GROUND}|neg(?:ative)? ?bus|engine block`);

/** A pole of a battery, and a terminal of a relay by its number (DIN 72552), that stand behind the name without a sign between. */
const POLE = /^(.*(?:batter[a-z]*|batt?|akku|accu|bater[ií]a))\s*(\+|[-−–]|pos(?:itive|itiv)?|neg(?:ative|ativ)?)$/iu;
const RELAY_TERMINAL = /^(.*(?:relay|relais|rel[èeé]).*?)[\s_-]+(30|85|86|87[ab]?)$/iu;

/** Takes `Battery +` and `Main relay 87` apart; undefined for any other name. */
function namedTerminal(name: string): { readonly connector: string; readonly pin: string } | undefined {
  const [, battery = "", pole] = POLE.exec(name) ?? [];
  if (pole !== undefined)
    return { connector: battery.trim(), pin: /^(?:\+|pos)/iu.test(pole) ? "positive" : "negative" };
  const [, connector = "", pin = ""] = RELAY_TERMINAL.exec(name) ?? [];
  return pin === "" ? undefined : { connector: connector.trim(), pin };
}

/** Decides what the ends of wires are, and remembers which names it had to judge without a pin. */
export class PointNamer {
  readonly #options: TableOptions;
  readonly #names: KnownNames;
  readonly #assumed: Readonly<Record<Bare, Set<string>>> = { splice: new Set(), ground: new Set(), stud: new Set() };
  readonly #grounds = new Set<string>();
  readonly #apart = new Map<string, number>();
  readonly #parts = new Map<string, boolean>();

  constructor(options: TableOptions, names: KnownNames) {
    this.#options = options;
    this.#names = names;
  }

  /** Says what an end is: undefined where the text says that it is not known, a problem where it cannot be one. */
  point(end: EndText, at: ImportPlace): EndPoint | ImportProblem | undefined {
    const type = end.type === "" ? undefined : TYPES.get(end.type.toLowerCase());
    if (end.type !== "" && type === undefined)
      return importProblem("end-type-unknown", at, { text: end.type.slice(0, 80) });
    if (type === "contact" || (type === undefined && end.pin !== "")) return this.#contact(end, at);
    const name = end.connector === "" ? end.component : end.connector;
    if (isPlaceholder(name)) return name === "" ? importProblem("pin-missing", at, { connector: "" }) : undefined;
    if (type === undefined) return this.#bareName(end, at);
    if (type === "splice") return { kind: "splice", id: name };
    return { kind: "stud", id: name, role: type, component: end.connector === "" ? "" : end.component };
  }

  /** Names that may be ground studs, for a person to confirm. */
  possibleGrounds(): readonly string[] {
    return [...this.#grounds];
  }

  /** Names that several wires end at without a pin, and may be one point; for a person to confirm. */
  possiblePoints(): readonly string[] {
    return [...this.#apart].flatMap(([name, count]) => (count > 1 && !this.#isPart(name) ? [name] : []));
  }

  /** A warning for each sort of point that was only known by its name. */
  problems(): readonly ImportProblem[] {
    const { splicePrefixes, groundPrefixes } = this.#options;
    const sorts = [
      ["splices", this.#assumed.splice, splicePrefixes],
      ["ground points", this.#assumed.ground, groundPrefixes],
      ["terminal studs", this.#assumed.stud, undefined],
    ] as const;
    const assumed = sorts.flatMap(([sort, names, given]) =>
      given !== undefined || names.size === 0
        ? []
        : [importProblem("points-assumed", {}, { sort, names: someOf(names) })],
    );
    const apart = [...this.#apart.keys()].filter((name) => !this.#isOnePoint || this.#isPart(name));
    return apart.length === 0 ? assumed : [...assumed, importProblem("pins-not-given", {}, { names: someOf(apart) })];
  }

  /** Whether a person has said that a name without pins is one point. */
  get #isOnePoint(): boolean {
    return this.#options.accept?.has("one-point") === true;
  }

  /** Whether a name tells a part; asked for every end without a pin, so each name is looked at once. */
  #isPart(name: string): boolean {
    return keptIn(this.#parts, name, () => partOfName(name) !== undefined);
  }

  #contact(end: EndText, at: ImportPlace): EndPoint | ImportProblem {
    if (!/[\p{L}\p{N}+−-]/u.test(end.pin))
      return importProblem("pin-missing", at, { connector: end.connector.slice(0, 80) });
    if (isPlaceholder(end.connector === "" ? end.component : end.connector))
      return importProblem("connector-missing", at, { pin: end.pin.slice(0, 80) });
    // Several ends in one cell: a comma stands in no designator.
    if (/[\p{L}\d]\s*[,;]\s*\p{L}/u.test(end.connector))
      return importProblem("pin-several", at, { text: `${end.connector} ${end.pin}`.slice(0, 80) });
    if (/^[\p{L}\d]{1,4}\s*[,;&]\s*[\p{L}\d]{1,4}/u.test(end.pin))
      return importProblem("pin-several", at, { text: end.pin.slice(0, 80) });
    const { component, connector, side, pin } = end;
    const [owner, ...others] = this.#names.owners.get(connector) ?? [];
    if (component === "" && others.length > 0) {
      const owners = [owner, ...others].slice(0, 5).join(", ");
      return importProblem("component-missing", at, { connector: connector.slice(0, 80), owners });
    }
    return { kind: "contact", component: component === "" ? (owner ?? "") : component, connector, side, pin };
  }

  #bareName(end: EndText, at: ImportPlace): EndPoint | ImportProblem {
    const name = end.connector === "" ? end.component : end.connector;
    const owner = end.connector === "" ? "" : end.component;
    if (startsWithOne(name, this.#options.splicePrefixes ?? SPLICE_PREFIXES)) {
      this.#assumed.splice.add(name);
      return { kind: "splice", id: name };
    }
    if (startsWithOne(name, this.#options.groundPrefixes ?? GROUND_PREFIXES)) {
      this.#assumed.ground.add(name);
      return { kind: "stud", id: name, role: "ground", component: owner };
    }
    if (this.#names.connectors.has(name)) return importProblem("pin-missing", at, { connector: name.slice(0, 80) });
    const terminal = namedTerminal(name);
    if (terminal) return { kind: "contact", component: owner, ...terminal, side: "" };
    const isCommon = COMMON_POINT.test(name.replaceAll("_", " "));
    const isPart = !isCommon && this.#isPart(name);
    if (isPart || (!isCommon && (this.#names.bare.get(name) ?? 0) > 1)) {
      const number = (this.#apart.get(name) ?? 0) + 1;
      this.#apart.set(name, number);
      // None says to which pin: each gets a contact of its own, so that nothing is joined that is not said to be.
      if (isPart || !this.#isOnePoint)
        return { kind: "contact", component: "", connector: name, side: "", pin: `${UNKNOWN_PIN}${number}` };
    }
    this.#assumed.stud.add(name);
    const isGround = GROUND_WORD.test(name.replaceAll("_", " "));
    if (isGround) this.#grounds.add(name);
    const role = isGround && this.#options.accept?.has("ground-studs") === true ? "ground" : "terminal";
    return { kind: "stud", id: name, role, component: owner };
  }
}

function someOf(names: Iterable<string>): string {
  const all = [...names];
  return all.slice(0, 12).join(", ") + (all.length > 12 ? ` and ${all.length - 12} more` : "");
}

/** Whether a name begins with one of the prefixes, and what follows is no letter: `SP1` and `SP-4`, not `SPARE`. */
function startsWithOne(name: string, prefixes: readonly string[]): boolean {
  const upper = name.toUpperCase();
  const isStart = (prefix: string): boolean => prefix !== "" && upper.startsWith(prefix.toUpperCase());
  return prefixes.some((prefix) => isStart(prefix) && !/^\p{L}/u.test(upper.slice(prefix.length)));
}

/** A contact of a table. */
export type ContactPoint = Extract<EndPoint, { kind: "contact" }>;

/** The ends of a wire as a table gives them; without the second its far end is not known. */
export type EntryEnds = readonly [EndPoint, EndPoint | undefined];

/** A wire as a table gives it. */
export interface WireEntry {
  /** What the file calls it; empty if it has no name. */
  readonly id: string;
  readonly ends: EntryEnds;
  readonly facts: WireFacts;
  readonly netKind: string;
  readonly at: ImportPlace;
  /** Whether the row of a pin has a column for the far end; absent for rows of wires. */
  readonly hasFar?: boolean;
}

/** A pin as a table gives it, whether or not a wire sits in it. */
export interface PinEntry {
  readonly point: ContactPoint;
  readonly note: string;
  readonly terminalMm: number | undefined;
  /** Name of the connector this one mates with; empty if the row does not say. */
  readonly mate: string;
  readonly at: ImportPlace;
}

/** A net as a list of nets gives it: its points, whose order is not known. */
export interface NetEntry {
  readonly name: string;
  readonly points: readonly EndPoint[];
  readonly at: ImportPlace;
}

/** Everything that tables say, row by row, before it becomes a document. */
export interface TableEntries {
  readonly wires: readonly WireEntry[];
  readonly pins: readonly PinEntry[];
  readonly nets: readonly NetEntry[];
}

/** One text for one point, so that points can be compared. */
export function pointText(point: EndPoint): string {
  if (point.kind !== "contact") return point.id;
  return [point.component === "" ? "" : point.component, connectorName(point), point.side, point.pin].join("\0");
}

/** One text for a pair of ends, whichever comes first. */
export function endsText(ends: EntryEnds): string {
  return knownEnds(ends).map(pointText).sort().join("\u0001");
}

/** The ends of a wire that the table names. */
export function knownEnds([first, second]: EntryEnds): readonly EndPoint[] {
  return second ? [first, second] : [first];
}

/** A contact in words, as `X1:5`. */
export function showPoint(point: EndPoint): string {
  if (point.kind !== "contact") return point.id;
  return `${connectorName(point)}${point.side === "" ? "" : `.${point.side}`}:${point.pin}`;
}

/** What the connector of a contact is called: a short designator with the part that has it, `ECU.J1`; a part that has no connector as the part. */
export function connectorName({ connector, component }: Pick<ContactPoint, "connector" | "component">): string {
  if (connector === "" || component === "") return connector === "" ? component : connector;
  const isOwn = connector === component || connector.startsWith(`${component}.`) || component === `${connector}-unit`;
  return !isOwn && /^[A-Z]{1,2}\d{1,2}$/u.test(connector) ? `${component}.${connector}` : connector;
}
