import { unitsOf, type Unit } from "./units.ts";

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

const both = ["pin", "wire"] as const;
const pin = ["pin"] as const;
const wire = ["wire"] as const;

/** Every column that is understood, in the order in which templates and exports write them. */
export const PIN_TABLE_COLUMNS = [
  {
    field: "type",
    heading: "Type",
    shapes: pin,
    meaning: "connector, splice, ground, supply or stud; empty means connector",
  },
  { field: "component", heading: "Component", shapes: pin, meaning: "Id of the part that the connector belongs to" },
  { field: "connector", heading: "Connector", shapes: pin, meaning: "Id of the connector" },
  { field: "half", heading: "Half", shapes: pin, meaning: "Half of an inline connector that the row is about" },
  { field: "mate", heading: "Mates with", shapes: pin, meaning: "Connector that this one plugs into" },
  { field: "pin", heading: "Pin", shapes: pin, meaning: "Cavity, as moulded on the connector" },
  { field: "function", heading: "Function", shapes: pin, meaning: "What the pin is for, in words" },
  {
    field: "terminalSize",
    heading: "Terminal (mm)",
    shapes: pin,
    meaning: "Size of the contact",
    units: unitsOf("length"),
  },
  { field: "wire", heading: "Wire", shapes: both, meaning: "Id of the wire" },
  { field: "fromType", heading: "From type", shapes: wire, meaning: "connector, splice, ground, supply or stud" },
  { field: "fromComponent", heading: "From component", shapes: wire, meaning: "Part at the first end" },
  {
    field: "fromConnector",
    heading: "From connector",
    shapes: wire,
    meaning: "Connector, splice or stud at the first end",
  },
  { field: "fromHalf", heading: "From half", shapes: wire, meaning: "Half of an inline connector at the first end" },
  { field: "fromPin", heading: "From pin", shapes: wire, meaning: "Cavity at the first end" },
  { field: "from", heading: "From", shapes: wire, meaning: "The first end in one cell, such as A1.X1:36 or SP11" },
  { field: "toType", heading: "To type", shapes: both, meaning: "connector, splice, ground, supply or stud" },
  { field: "toComponent", heading: "To component", shapes: both, meaning: "Part at the other end" },
  {
    field: "toConnector",
    heading: "To connector",
    shapes: both,
    meaning: "Connector, splice or stud at the other end",
  },
  { field: "toHalf", heading: "To half", shapes: both, meaning: "Half of an inline connector at the other end" },
  { field: "toPin", heading: "To pin", shapes: both, meaning: "Cavity at the other end" },
  { field: "to", heading: "To", shapes: both, meaning: "The other end in one cell, such as A1.X1:36 or SP11" },
  { field: "splice", heading: "Splice", shapes: pin, meaning: "Splice that the wire of this pin leads to" },
  { field: "colour", heading: "Colour", shapes: both, meaning: "Colour code, base first; a tracer after a slash" },
  {
    field: "tracer",
    heading: "Tracer",
    shapes: both,
    meaning: "Colour of the tracer, where it has a column of its own",
  },
  {
    field: "crossSection",
    heading: "Size (mm²)",
    shapes: both,
    meaning: "Conductor size",
    units: unitsOf("crossSection"),
  },
  { field: "length", heading: "Length (mm)", shapes: both, meaning: "Length of the wire", units: unitsOf("length") },
  { field: "net", heading: "Signal", shapes: both, meaning: "Name of the net or signal" },
  {
    field: "netKind",
    heading: "Signal kind",
    shapes: both,
    meaning: "What the net is for, as in the harness document",
  },
  { field: "harness", heading: "Harness", shapes: both, meaning: "Harness that the wire belongs to" },
  { field: "group", heading: "Group", shapes: both, meaning: "Twisted or screened group" },
  { field: "option", heading: "Option", shapes: both, meaning: "Option id or expression; empty means fitted always" },
  { field: "note", heading: "Note", shapes: both, meaning: "Anything else" },
] as const satisfies readonly PinTableColumn[];

const BY_FIELD = new Map<string, PinTableColumn>(PIN_TABLE_COLUMNS.map((column) => [column.field, column]));

/** The description of a column. */
export function columnOf(field: ColumnField): PinTableColumn {
  const column = BY_FIELD.get(field);
  if (!column) throw new RangeError(`There is no column "${field}"`);
  return column;
}
