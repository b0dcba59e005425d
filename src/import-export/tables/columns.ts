import { defined, readUnit as readWrittenUnit, type GeneratedFile } from "../../base/index.ts";
import { END_WORDS, HEADING_WORDS } from "./heading-words.ts";

/** Units that sizes and lengths of a table may have. */
export type Unit = "mm" | "cm" | "m" | "in" | "ft" | "mm2" | "AWG";

/** What a unit measures. */
export type UnitSort = "length" | "crossSection";

const SORTS: Readonly<Record<Unit, UnitSort>> = {
  ...{ mm2: "crossSection", AWG: "crossSection" },
  ...{ mm: "length", cm: "length", m: "length", in: "length", ft: "length" },
};
const UNITS = Object.keys(SORTS) as readonly Unit[];
/** A gauge number is no quantity: it has no factor. */
const GAUGE = /^(?:awg|ga|gauge)$/iu;

/** The units of one sort. */
function unitsOf(sort: UnitSort): readonly Unit[] {
  return UNITS.filter((unit) => SORTS[unit] === sort);
}

/** The unit a text names, such as `mm²` or `AWG`; undefined if it names none. */
export function readUnit(text: string): Unit | undefined {
  if (GAUGE.test(text.trim().replace(/\.$/u, ""))) return "AWG";
  const symbol = readWrittenUnit(text, ["mm", "mm²"])?.symbol;
  return symbol === "mm²" ? "mm2" : UNITS.find((unit) => unit === symbol);
}

/** What a unit measures. */
export function unitSort(unit: Unit): UnitSort {
  return SORTS[unit];
}

/**
 * Turns a value into millimetres or square millimetres; a gauge number goes through its diameter.
 *
 * @param value The number as written; for gauge numbers above 0 size 00 is -1, 000 is -2 and so on.
 * @param unit Its unit.
 * @returns Millimetres for a length, square millimetres for a size.
 * @example
 * ```ts
 * import { toMillimetres } from "ohmward/import-export";
 * expect(toMillimetres(2, "in")).toBe(50.8);
 * expect(toMillimetres(18, "AWG")).toBe(0.823);
 * ```
 * Source: ASTM B258: the diameter of gauge n is 0.127 mm times 92 to the power of (36 - n) / 39. Areas are given to four digits.
 */
export function toMillimetres(value: number, unit: Unit): number {
  const factor = unit === "AWG" ? undefined : readWrittenUnit(unit)?.factor;
  if (factor === 1) return value;
  if (factor !== undefined) return Number((value * factor).toPrecision(9));
  const diameterMm = 0.127 * 92 ** ((36 - value) / 39);
  return Number(((Math.PI / 4) * diameterMm ** 2).toPrecision(4));
}

/** The two shapes of table that are understood: a row for each pin of a connector, or a row for each wire with both its ends. */
export type TableShape = "pin" | "wire";

/** What a column of a pin table may hold. */
export type ColumnField = (typeof PIN_TABLE_COLUMNS)[number]["field"];

/** One column that is understood, for people and for `data-schemas/pin-table-columns.json`. */
export interface PinTableColumn {
  readonly field: string;
  /** The heading that this program writes. */
  readonly heading: string;
  readonly shapes: readonly TableShape[];
  readonly meaning: string;
  readonly units?: readonly Unit[];
}

type Described<Field extends string> = Omit<PinTableColumn, "field"> & { readonly field: Field };

const inTablesOf =
  (...shapes: readonly TableShape[]) =>
  <Field extends string>(
    field: Field,
    heading: string,
    meaning: string,
    units?: readonly Unit[],
  ): Described<Field> => ({
    ...{ field, heading, shapes, meaning },
    ...defined({ units }),
  });
const both = inTablesOf("pin", "wire");
const pin = inTablesOf("pin");
const wire = inTablesOf("wire");

/** Every column that is understood, in the order in which templates and exports write them. */
export const PIN_TABLE_COLUMNS = [
  pin("type", "Type", "connector, splice, ground, supply or stud; empty means connector"),
  pin("component", "Component", "Id of the part that the connector belongs to"),
  pin("connector", "Connector", "Id of the connector"),
  pin("half", "Side", "Side of an inline connector that the row is about"),
  pin("mate", "Mates with", "Connector that this one mates with"),
  pin("pin", "Pin", "Cavity, as moulded on the connector"),
  pin("point", "Point", "Connector and pin in one cell, such as X1:3; several with commas between"),
  pin("function", "Function", "What the pin is for, in words"),
  pin("terminalSize", "Terminal (mm)", "Width of the terminal", unitsOf("length")),
  both("wire", "Wire", "Id of the wire"),
  wire("fromType", "From type", "connector, splice, ground, supply or stud"),
  wire("fromComponent", "From component", "Part at the first end"),
  wire("fromConnector", "From connector", "Connector, splice or terminal stud at the first end"),
  wire("fromHalf", "From side", "Side of an inline connector at the first end"),
  wire("fromPin", "From pin", "Cavity at the first end"),
  wire("from", "From", "The first end in one cell, such as A1.X1:36 or SP11"),
  wire("ends", "Connection", "Both ends in one cell, such as X1:3 -> X2:1"),
  both("toType", "To type", "connector, splice, ground, supply or stud"),
  both("toComponent", "To component", "Part at the other end"),
  both("toConnector", "To connector", "Connector, splice or terminal stud at the other end"),
  both("toHalf", "To side", "Side of an inline connector at the other end"),
  both("toPin", "To pin", "Cavity at the other end"),
  both("to", "To", "The other end in one cell, such as A1.X1:36 or SP11"),
  pin("toOther", "To (other side)", "Far end of the second wire of a terminal, in one cell"),
  pin("splice", "Splice", "Splice that the wire of this pin leads to"),
  both("colour", "Colour", "Colour code, base colour first; a stripe after a slash"),
  both("tracer", "Stripe", "Colour of the stripe, where it has its own column"),
  both("crossSection", "Size (mm²)", "Conductor size", unitsOf("crossSection")),
  both("cable", "Size and colour", "Conductor size and colour in one cell, such as 6 mm² red"),
  both("length", "Length (mm)", "Length of the wire", unitsOf("length")),
  both("net", "Signal", "Name of the net or signal"),
  both("netKind", "Signal kind", "What the net is for, as in the harness document"),
  both("harness", "Harness", "Harness that the wire belongs to"),
  both("group", "Group", "Twisted or screened group"),
  both("option", "Option", "Option id or expression; empty means fitted always"),
  both("note", "Note", "Anything else"),
] as const;

const BY_FIELD = new Map<string, PinTableColumn>(PIN_TABLE_COLUMNS.map((column) => [column.field, column]));

/** The description of a column. */
export function columnOf(field: ColumnField): PinTableColumn {
  const column = BY_FIELD.get(field);
  if (!column) throw new RangeError(`There is no column "${field}"`);
  return column;
}

/** What one column of a table holds. */
export interface MappedColumn {
  /** Position of the column, from 0. */
  readonly column: number;
  readonly field: ColumnField;
  /** Unit of a length or size; absent means that each cell says its own, or that the column holds neither. */
  readonly unit?: Unit;
}

/** How a table is to be understood: plain data that a person may edit and that may be stored. */
export interface TableMapping {
  readonly shape: TableShape;
  readonly columns: readonly MappedColumn[];
}

/** A mapping as it was found from the headings. */
export interface ProposedMapping extends TableMapping {
  /** How sure the mapping is, from 0 to 1; 0 if what a table needs at least is missing. */
  readonly score: number;
  /** What is missing, in words, where the score is 0. */
  readonly missing: readonly string[];
  /** Score of each mapped column, by its position. */
  readonly columnScores: ReadonlyMap<number, number>;
  /** Positions of columns with a heading that nothing is taken from. */
  readonly unmapped: readonly number[];
}

/** The file of `data-schemas/` that this room owns: columns of pin tables with meaning and units, and the words of their headings. */
export function generatedFiles(): readonly GeneratedFile[] {
  const words = (text: string): readonly string[] => [...new Set(text.split(",").map((word) => word.trim()))].sort();
  const listed: readonly PinTableColumn[] = PIN_TABLE_COLUMNS;
  const columns = listed.map(({ field, heading, shapes, meaning, units }) => {
    return { field, heading, shapes, meaning, ...defined({ units }) };
  });
  const content = {
    $comment: "Generated by npm run generate from src/import-export/tables, do not edit",
    title: "Columns of pin tables and wire lists",
    columns,
    headingWords: Object.fromEntries(Object.entries(HEADING_WORDS).map(([topic, text]) => [topic, words(text)])),
    endWords: Object.fromEntries(Object.entries(END_WORDS).map(([end, text]) => [end, words(text)])),
  };
  return [{ fileName: "pin-table-columns.json", text: `${JSON.stringify(content, undefined, 2)}\n` }];
}
