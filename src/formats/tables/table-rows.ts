import { type ImportPlace, importProblem, type ImportProblem } from "../import-problem.ts";
import type { ColumnField, TableMapping, Unit } from "./columns.ts";
import type { Table } from "./table.ts";
import { err, ok, type Result } from "../../base/index.ts";
import type { TableOptions } from "./table-options.ts";
import type { WireFacts } from "./wire-facts.ts";

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
      { column, heading: headings[column]?.trim() ?? String(column + 1), ...(unit === undefined ? {} : { unit }) },
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
    const place: ImportPlace = {
      ...(sheet === undefined ? {} : { sheet }),
      row,
      ...(line === undefined ? {} : { line }),
    };
    records.push({
      row,
      text,
      isNumber: (field) => numbers?.has(columns.get(field)?.column ?? -1) === true,
      at: (field) => {
        const column = field && columns.get(field)?.heading;
        return column === undefined ? place : { ...place, column };
      },
    });
  }
  return records;
}

/** What a row says about one end of a wire, as written. */
export interface EndText {
  readonly type: string;
  readonly component: string;
  readonly connector: string;
  readonly half: string;
  readonly pin: string;
}

/** What an end is. Ids are those of the file. */
export type EndPoint =
  | {
      readonly kind: "contact";
      readonly component: string;
      readonly connector: string;
      readonly half: string;
      readonly pin: string;
    }
  | { readonly kind: "splice"; readonly id: string }
  | {
      readonly kind: "stud";
      readonly id: string;
      readonly role: "ground" | "supply" | "terminal";
      readonly component: string;
    };

/** The two words for the ends of a wire in names of fields. */
type EndSide = "from" | "to";

/** What a row says about one end, taken from its columns; an end in a single cell is taken apart. Undefined if the row names none. */
export function endTextOf(
  record: RowRecord,
  side: EndSide | "own",
  separator: string | undefined,
): EndText | undefined {
  if (side === "own") {
    const end = {
      type: record.text("type"),
      component: record.text("component"),
      connector: record.text("connector"),
      half: record.text("half"),
      pin: record.text("pin"),
    };
    return isEmpty(end) ? undefined : end;
  }
  const end: EndText = {
    type: record.text(`${side}Type`),
    component: record.text(`${side}Component`),
    connector: record.text(`${side}Connector`),
    half: record.text(`${side}Half`),
    pin: record.text(`${side}Pin`),
  };
  if (!isEmpty(end))
    return end.connector === "" ? end : end.pin === "" ? { ...end, ...splitEnd(end.connector, separator) } : end;
  const whole = record.text(side);
  return whole === "" ? undefined : { ...end, type: end.type, ...splitEnd(whole, separator) };
}

/** Only a type is no end. */
function isEmpty(end: EndText): boolean {
  return end.component === "" && end.connector === "" && end.pin === "";
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

/** Signs that may stand between connector and pin, apart from the colon, which always does. */
const SEPARATORS = ["/", " ", "-", "."];
const LEAST_SHARE = 0.8;
/** Cavities are numbered or lettered: `5`, `A`, `B12`, `30a`. */
const LOOKS_LIKE_PIN = /^(?:[A-Za-z]{0,2}\d{1,3}[A-Za-z]?|[A-Za-z]{1,2})$/u;

/**
 * Finds what stands between connector and pin where both are in one cell: the sign by which most cells fall into a name and a short pin.
 *
 * @param texts Cells that name an end.
 * @returns The sign; undefined if the colon will do or no sign fits most cells.
 */
export function findEndSeparator(texts: readonly string[]): string | undefined {
  const wanting = texts.filter((text) => !text.includes(":"));
  if (wanting.length * 2 <= texts.length) return undefined;
  // Hyphen and point also stand inside names, so they have to be stated.
  return SEPARATORS.slice(0, 2).find((sign) => {
    const split = wanting.filter((text) => LOOKS_LIKE_PIN.test(splitEnd(text, sign).pin));
    return split.length > 0 && split.length >= wanting.length * LEAST_SHARE;
  });
}

/** How names of splices begin in several languages. Common practice, no source; reported whenever they are used unconfirmed. */
const SPLICE_PREFIXES: readonly string[] = [
  "SP",
  "SPL",
  "SPLICE",
  "SPLEISS",
  "EPISSURE",
  "EMPALME",
  "GIUNZIONE",
  "LAS",
  "SKARV",
];
/** How names of ground points begin in several languages. Common practice, no source. */
const GROUND_PREFIXES: readonly string[] = ["GND", "GROUND", "EARTH", "MASSE", "MASSA", "MASA", "TIERRA", "JORD"];

const TYPES: ReadonlyMap<string, "contact" | "splice" | "ground" | "supply" | "terminal"> = new Map([
  ["connector", "contact"],
  ["contact", "contact"],
  ["pin", "contact"],
  ["splice", "splice"],
  ["ground", "ground"],
  ["earth", "ground"],
  ["supply", "supply"],
  ["stud", "terminal"],
  ["terminal", "terminal"],
]);

/** Decides what the ends of wires are, and remembers which names it had to judge by their beginning alone. */
export class PointNamer {
  readonly #options: TableOptions;
  readonly #assumed = { splice: new Set<string>(), ground: new Set<string>() };

  constructor(options: TableOptions) {
    this.#options = options;
  }

  /**
   * Says what an end is.
   *
   * @param end What the row says.
   * @param at Its place, for problems.
   */
  point(end: EndText, at: ImportPlace): Result<EndPoint, ImportProblem> {
    const type = end.type === "" ? undefined : TYPES.get(end.type.toLowerCase());
    if (end.type !== "" && type === undefined)
      return err(importProblem("end-type-unknown", at, { text: end.type.slice(0, 80) }));
    const name = end.connector;
    switch (type) {
      case "splice":
        return ok({ kind: "splice", id: name });
      case "ground":
      case "supply":
      case "terminal":
        return ok({ kind: "stud", id: name, role: type, component: end.component });
      case "contact":
        return this.#contact(end, at);
      case undefined:
        if (end.pin !== "") return this.#contact(end, at);
        return this.#bareName(end, at);
    }
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
    const { component, connector, half, pin } = end;
    return ok({ kind: "contact", component, connector, half, pin });
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
  return prefixes.some((prefix) => {
    if (prefix === "" || !upper.startsWith(prefix.toUpperCase())) return false;
    return !/^\p{L}/u.test(upper.slice(prefix.length));
  });
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
  return [point.connector === "" ? point.component : "", point.connector, point.half, point.pin].join("\0");
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
  return `${point.connector === "" ? point.component : point.connector}${point.half === "" ? "" : `.${point.half}`}:${point.pin}`;
}
