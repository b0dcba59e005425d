import { endAddresses, lookUpPoint, type AddressBook, type Net, type Point, type Wire } from "../../model/index.ts";
import type { CellValue } from "../csv/write-csv.ts";
import { columnOf, PIN_TABLE_COLUMNS, type ColumnField, type TableShape } from "./columns.ts";

/** The cells of one row by field. */
export type RowCells = ReadonlyMap<ColumnField, CellValue>;

/** The cells that say where a wire ends: in the columns of the row's own pin, or in those of one of the two ends. */
export function endCells(point: Point, side: "own" | "from" | "to"): RowCells {
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
export function wireCells(wire: Wire, nets: ReadonlyMap<string, Net>): RowCells {
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
export function layOutRows(shape: TableShape, rows: readonly RowCells[]): readonly (readonly CellValue[])[] {
  const fields = PIN_TABLE_COLUMNS.filter(
    ({ field, shapes }) => (shapes as readonly TableShape[]).includes(shape) && rows.some((row) => row.has(field)),
  ).map((column): ColumnField => column.field);
  return [fields.map((field) => columnOf(field).heading), ...rows.map((row) => fields.map((field) => row.get(field)))];
}

/** The points at which a wire of a checked document ends. */
export function wireEnds(book: AddressBook, wire: Wire): readonly [Point, Point] {
  const [first, second] = endAddresses(wire).map((address) => {
    const point = lookUpPoint(book, address, { by: "wire" });
    if (point.kind === "none") throw new RangeError(`Wire "${wire.id}" ends nowhere: ${point.reason}`);
    return point;
  });
  if (!first || !second) throw new RangeError(`Wire "${wire.id}" needs two ends`);
  return [first, second];
}
