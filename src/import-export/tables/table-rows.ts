import { type ImportPlace, importProblem, type ImportProblem } from "../import-problem.ts";
import type { ColumnField, TableMapping, Unit } from "./columns.ts";
import type { Table } from "./table.ts";
import { defined, err, ok, type Result } from "../../base/index.ts";
import type { TableOptions } from "./table-options.ts";

/** One row of a table by the meaning of its columns. */
export interface RowRecord {
  readonly row: number;
  /** The trimmed text of a field; empty if the row or the table has none. */
  readonly text: (field: ColumnField) => string;
  /** Whether the cell is a number of a workbook, which always has a decimal point. */
  readonly isNumber: (field: ColumnField) => boolean;
  /** The place of the row, or of a field in it. */
  readonly at: (field?: ColumnField) => ImportPlace;
}

/** A column with its place, heading and unit. */
export interface FieldColumn {
  readonly column: number;
  readonly heading: string;
  readonly unit?: Unit;
}

/** The columns of a mapping by field, with their headings. */
export function fieldColumns(
  mapping: TableMapping,
  headings: readonly string[],
): ReadonlyMap<ColumnField, FieldColumn> {
  return new Map(
    mapping.columns.map(({ column, field, unit }): [ColumnField, FieldColumn] => [
      field,
      { column, heading: headings[column]?.trim() ?? String(column + 1), ...defined({ unit }) },
    ]),
  );
}

/** The rows below the headings, each by the meaning of its columns; rows in which no mapped column holds anything are left out. */
export function rowRecords(
  table: Table,
  headingRow: number,
  columns: ReadonlyMap<ColumnField, FieldColumn>,
): readonly RowRecord[] {
  const { sheet } = table;
  const records: RowRecord[] = [];
  for (const { row, line, cells, numbers } of table.rows) {
    if (row <= headingRow) continue;
    const text = (field: ColumnField): string => cells[columns.get(field)?.column ?? -1]?.trim() ?? "";
    if (![...columns.keys()].some((field) => text(field) !== "")) continue;
    const place: ImportPlace = { ...defined({ sheet }), row, ...defined({ line }) };
    records.push({
      row,
      text,
      isNumber: (field) => numbers?.has(columns.get(field)?.column ?? -1) === true,
      at: (field) => ({ ...place, ...defined({ column: field && columns.get(field)?.heading }) }),
    });
  }
  return records;
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

/** Takes `A1.X1:36` apart at its last separator; without one the whole is a name. */
function splitEnd(text: string, separator: string | undefined): { connector: string; pin: string } {
  for (const sign of separator === undefined ? [":"] : [":", separator]) {
    const at = text.lastIndexOf(sign);
    const [connector, pin] = [text.slice(0, at).trim(), text.slice(at + sign.length).trim()];
    if (at > 0 && connector !== "" && pin !== "") return { connector, pin };
  }
  return { connector: text.trim(), pin: "" };
}

/** Cavities are numbered or lettered: `5`, `A`, `B12`, `30a`. */
const LOOKS_LIKE_PIN = /^(?:[A-Za-z]{0,2}\d{1,3}[A-Za-z]?|[A-Za-z]{1,2})$/u;

/**
 * Finds what stands between connector and pin where both are in one cell: the sign by which most cells fall into a name and a short pin.
 *
 * @returns The sign; undefined if the colon will do or no sign fits most cells.
 */
export function findEndSeparator(texts: readonly string[]): string | undefined {
  const wanting = texts.filter((text) => !text.includes(":"));
  if (wanting.length * 2 <= texts.length) return undefined;
  // Hyphen and point also stand inside names, so they have to be stated.
  return ["/", " "].find((sign) => {
    const split = wanting.filter((text) => LOOKS_LIKE_PIN.test(splitEnd(text, sign).pin));
    return split.length > 0 && split.length >= wanting.length * 0.8;
  });
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

/** Decides what the ends of wires are, and remembers which names it had to judge by their beginning alone. */
export class PointNamer {
  readonly #options: TableOptions;
  readonly #assumed = { splice: new Set<string>(), ground: new Set<string>() };

  constructor(options: TableOptions) {
    this.#options = options;
  }

  /** Says what an end is. */
  point(end: EndText, at: ImportPlace): Result<EndPoint, ImportProblem> {
    const type = end.type === "" ? undefined : TYPES.get(end.type.toLowerCase());
    if (end.type !== "" && type === undefined)
      return err(importProblem("end-type-unknown", at, { text: end.type.slice(0, 80) }));
    if (type === "contact" || (type === undefined && end.pin !== "")) return this.#contact(end, at);
    if (type === undefined) return this.#bareName(end, at);
    if (type === "splice") return ok({ kind: "splice", id: end.connector });
    return ok({ kind: "stud", id: end.connector, role: type, component: end.component });
  }

  /** A warning for each sort of point that was only known by how its name begins. */
  problems(): readonly ImportProblem[] {
    const problems: ImportProblem[] = [];
    for (const [sort, names, given] of [
      ["splices", this.#assumed.splice, this.#options.splicePrefixes],
      ["ground points", this.#assumed.ground, this.#options.groundPrefixes],
    ] as const) {
      if (given !== undefined || names.size === 0) continue;
      const more = names.size > 12 ? ` and ${names.size - 12} more` : "";
      problems.push(importProblem("points-assumed", {}, { sort, names: [...names].slice(0, 12).join(", ") + more }));
    }
    return problems;
  }

  #contact(end: EndText, at: ImportPlace): Result<EndPoint, ImportProblem> {
    if (end.pin === "") return err(importProblem("pin-missing", at, { connector: end.connector.slice(0, 80) }));
    if (end.connector === "" && end.component === "")
      return err(importProblem("connector-missing", at, { pin: end.pin.slice(0, 80) }));
    const { component, connector, side, pin } = end;
    return ok({ kind: "contact", component, connector, side, pin });
  }

  #bareName(end: EndText, at: ImportPlace): Result<EndPoint, ImportProblem> {
    const name = end.connector;
    if (name === "") return err(importProblem("pin-missing", at, { connector: end.component.slice(0, 80) }));
    if (startsWithOne(name, this.#options.splicePrefixes ?? SPLICE_PREFIXES)) {
      this.#assumed.splice.add(name);
      return ok({ kind: "splice", id: name });
    }
    if (startsWithOne(name, this.#options.groundPrefixes ?? GROUND_PREFIXES)) {
      this.#assumed.ground.add(name);
      return ok({ kind: "stud", id: name, role: "ground", component: end.component });
    }
    return err(importProblem("end-unclear", at, { text: name.slice(0, 80) }));
  }
}

/** Whether a name begins with one of the prefixes, and what follows is no letter: `SP1` and `SP-4`, not `SPARE`. */
function startsWithOne(name: string, prefixes: readonly string[]): boolean {
  const upper = name.toUpperCase();
  const isStart = (prefix: string): boolean => prefix !== "" && upper.startsWith(prefix.toUpperCase());
  return prefixes.some((prefix) => isStart(prefix) && !/^\p{L}/u.test(upper.slice(prefix.length)));
}

/** What a row says about a wire apart from its ends; lengths in mm, sizes in mm². */
export interface WireFacts {
  readonly colour?: string;
  readonly crossSectionMm2?: number;
  readonly lengthMm?: number;
  readonly net?: string;
  readonly harness?: string;
  readonly group?: string;
  readonly when?: string;
  readonly note?: string;
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

/** Everything a table says, row by row, before it becomes a document. */
export interface TableEntries {
  readonly wires: readonly WireEntry[];
  readonly pins: readonly PinEntry[];
}

/** One text for one point, so that points can be compared. */
export function pointText(point: EndPoint): string {
  if (point.kind !== "contact") return point.id;
  return [point.connector === "" ? point.component : "", point.connector, point.side, point.pin].join("\0");
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
  return `${point.connector === "" ? point.component : point.connector}${point.side === "" ? "" : `.${point.side}`}:${point.pin}`;
}
