import { writeCsv, type CellValue } from "../csv/write-csv.ts";
import { columnOf, type ColumnField, type TableShape } from "./columns.ts";

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
