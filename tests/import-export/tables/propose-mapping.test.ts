import { describe, expect, test } from "vitest";
import { proposeMapping } from "ohmward/import-export";

/** Headings as tables of the trade have them, by language; common practice, no source. */
const tables: readonly (readonly [string, string, "pin" | "wire", string])[] = [
  [
    "English pin table",
    "Component|Connector|Pin|Wire No.|Colour|Size (mm²)|Length (mm)|Signal|To connector|To pin|Option|Remarks",
    "pin",
    "component|connector|pin|wire|colour|crossSection:mm2|length:mm|net|toConnector|toPin|option|note",
  ],
  [
    "American pin table",
    "ECU|Plug|Cavity|Wire Color|Stripe|Gauge (AWG)|Circuit|Description",
    "pin",
    "component|connector|pin|colour|tracer|crossSection:AWG|net|function",
  ],
  ["English wire list", "Wire|From|To|Col|CSA mm²|Length [m]", "wire", "wire|from|to|colour|crossSection:mm2|length:m"],
  [
    "wire list with both ends named alike",
    "Wire|Connector|Pin|Colour|Connector|Pin",
    "wire",
    "wire|fromConnector|fromPin|colour|toConnector|toPin",
  ],
  [
    "wire list with lettered ends",
    "Cable|Connector A|Pin A|Connector B|Pin B|AWG",
    "wire",
    "wire|fromConnector|fromPin|toConnector|toPin|crossSection:AWG",
  ],
  [
    "German pin table",
    "Bauteil|Stecker|Kammer|Leitungsnummer|Farbe|Querschnitt [mm²]|Länge in cm|Signal|Bemerkung",
    "pin",
    "component|connector|pin|wire|colour|crossSection:mm2|length:cm|net|note",
  ],
  [
    "German wire list",
    "Ader|Von|Nach|Aderfarbe|Querschnitt mm²|Kabelbaum|Ausstattung",
    "wire",
    "wire|from|to|colour|crossSection:mm2|harness|option",
  ],
  [
    "German wire list by words",
    "Leitung|von Stecker|von Pin|nach Stecker|nach Pin",
    "wire",
    "wire|fromConnector|fromPin|toConnector|toPin",
  ],
  [
    "French pin table",
    "Organe|Connecteur|Voie|Fil|Couleur|Section (mm²)|Longueur (mm)|Désignation|Remarque",
    "pin",
    "component|connector|pin|wire|colour|crossSection:mm2|length:mm|function|note",
  ],
  [
    "Spanish pin table",
    "Componente|Conector|Vía|Cable|Color|Sección mm²|Longitud (m)|Señal|Observaciones",
    "pin",
    "component|connector|pin|wire|colour|crossSection:mm2|length:m|net|note",
  ],
  [
    "Italian pin table",
    "Dispositivo|Connettore|Polo|Filo|Colore|Sezione (mm²)|Lunghezza (mm)|Segnale|Note",
    "pin",
    "component|connector|pin|wire|colour|crossSection:mm2|length:mm|net|note",
  ],
  [
    "Dutch pin table",
    "Onderdeel|Stekker|Pin|Draad|Kleur|Doorsnede (mm²)|Lengte (mm)|Signaal|Opmerking",
    "pin",
    "component|connector|pin|wire|colour|crossSection:mm2|length:mm|net|note",
  ],
  [
    "Swedish pin table",
    "Komponent|Kontaktdon|Stift|Ledning|Färg|Area (mm²)|Längd (mm)|Krets|Anmärkning",
    "pin",
    "component|connector|pin|wire|colour|crossSection:mm2|length:mm|net|note",
  ],
  ["Swedish wire list", "Kabel|Från|Till|Färg", "wire", "wire|from|to|colour"],
];

describe("proposeMapping()", () => {
  test.each(tables)("understands a %s", (_name, headings, shape, fields) => {
    const proposed = proposeMapping(headings.split("|"));
    expect(proposed.shape).toBe(shape);
    expect(proposed.columns.map(({ field, unit }) => (unit === undefined ? field : `${field}:${unit}`)).join("|")).toBe(
      fields,
    );
    expect(proposed.columns.map(({ column }) => column)).toEqual(fields.split("|").map((_, at) => at));
    expect(proposed.unmapped).toEqual([]);
    expect(proposed.missing).toEqual([]);
    expect(proposed.score).toBeGreaterThan(0.7);
  });

  test("is less sure of a heading with words around the one it knows", () => {
    const [exact, loose] = [proposeMapping(["Connector", "Pin"]), proposeMapping(["Old connector of dad", "Pin"])];
    expect(loose.columns).toEqual(exact.columns);
    expect(loose.score).toBeLessThan(exact.score);
  });

  test("lists what is missing and what it did not take", () => {
    const proposed = proposeMapping(["Colour", "Price", "Supplier", ""]);
    expect(proposed).toMatchObject({ score: 0, missing: ["the pin"], unmapped: [1, 2] });
  });

  test("does not take a contact size for a second pin", () => {
    expect(proposeMapping(["Connector", "Pin", "Terminal (mm)"]).columns.map((each) => each.field)).toEqual([
      "connector",
      "pin",
      "terminalSize",
    ]);
  });

  test("is not led astray by headings that are names of object parts", () => {
    expect(proposeMapping(["__proto__", "constructor", "toString", "hasOwnProperty"]).columns).toEqual([]);
  });
});
