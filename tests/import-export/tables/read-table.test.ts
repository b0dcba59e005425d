import { describe, expect, test } from "vitest";
import {
  csvReader,
  encodeUtf8,
  runReading,
  type TableOptions,
  previewTable,
  type ColourScheme,
  type TablePreview,
} from "ohmward/import-export";
import { inlineRows, makeXlsx } from "../support/make-xlsx.ts";
import { problemsOf, readGood, warningCodes } from "../support/read-file.ts";

const wiresOf = (content: string | Uint8Array, table: TableOptions = {}, fileName = "a.csv") =>
  readGood(content, fileName, { table }).document.wires.map(
    ({ id, ends, colour, crossSectionMm2, lengthMm, when, note }) =>
      Object.fromEntries(
        Object.entries({ id, ends: ends.join(" "), colour, crossSectionMm2, lengthMm, when, note }).filter(
          ([, value]) => value !== undefined,
        ),
      ),
  );

describe("a table of the workshop", () => {
  test("a name with a number beside an empty pin is a name, not a connector with its pin", () => {
    const text =
      "wire,from,from pin,to,to pin\n1,Socket,1,Left lamp,1\n2,Socket,3,Ground 1,\n3,Left lamp,4,Ground 1,\n";
    expect(wiresOf(text).map(({ ends }) => ends)).toEqual([
      "Socket:1 Left-lamp:1",
      "Socket:3 Ground-1",
      "Left-lamp:4 Ground-1",
    ]);
  });

  // Wire lists as boat and vehicle owners write them, typed for this test; a lamp or a pump is no point where its two wires meet.
  test("parts without pins have a contact for each wire, poles and relay terminals are told by their names", () => {
    const rows = [
      "Circuit,Wire color,Gauge,From,To",
      "Nav lights,Gray,16,Switch panel #1,Bow light",
      "Ground,Yellow,16,Bow light,Neg bus",
      "Main neg,Yellow,6,Neg bus,Battery -",
      "Feed,Red,10,Battery +,Main relay 30",
    ];
    expect(wiresOf(rows.join("\n")).map(({ ends }) => ends)).toEqual([
      "Switch-panel-1:not-known-1 Bow-light:not-known-1",
      "Bow-light:not-known-2 Neg-bus",
      "Neg-bus Battery:negative",
      "Battery:positive Main-relay:30",
    ]);
  });

  test("headings that speak of terminals hold whole ends where the cells do", () => {
    const text =
      "Kabel\tFarbe\tKlemme von\tKlemme nach\n1\trt\tF1:2\tK1:30\n2\tbr\tM1:2\tMasse\n3\trt\tBatterie +\tF1:1\n";
    expect(wiresOf(text, {}, "a.tsv").map(({ ends }) => ends)).toEqual([
      "F1:2 K1:30",
      "M1:2 Masse",
      "Batterie:positive F1:1",
    ]);
  });

  test("a heading such as ECU pin names the connector of its pins; a sensor with its own column is the far end", () => {
    const chart = [
      "Signal name,ECU pin,Sensor,Sensor pin,Color",
      "CKP +,A12,Crank sensor,1,White",
      "5V,B1,MAP sensor,A,Gray/Red",
      "Sensor gnd,B7,MAP sensor,C,Black",
    ];
    expect(wiresOf(chart.join("\n")).map(({ ends }) => ends)).toEqual([
      "ECU:A12 Crank-sensor:1",
      "ECU:B1 MAP-sensor:A",
      "ECU:B7 MAP-sensor:C",
    ]);
    const cable = "DB25 pin,Signal,Cable colour,M12 pin\n1,TX,white,2\n7,GND,brown,3\n";
    expect(wiresOf(cable).map(({ ends }) => ends)).toEqual(["DB25:1 M12:2", "DB25:7 M12:3"]);
    const plugs = "Plug A pin,Plug B pin,Colour\n1,4,Red\n2,5,Black\n";
    expect(wiresOf(plugs).map(({ ends }) => ends)).toEqual(["Plug-A:1 Plug-B:4", "Plug-A:2 Plug-B:5"]);
  });

  test("a far end is taken apart at the word pin, and a dash for no colour keeps no scheme of colours from being proposed", () => {
    const chart = "Pin;Farbe;Ziel\n1;sw/rt;Geber G28 Pin 1\n2;br;Geber G28 Pin 2\n3;-;-\n";
    const read = readGood(chart, "X9.csv", { table: { accept: new Set(["colour-codes"]) } });
    expect(read.document.wires.map(({ ends, colour }) => [ends.join(" "), colour])).toEqual([
      ["X9:1 Geber-G28:1", "BK/RD"],
      ["X9:2 Geber-G28:2", "BN"],
    ]);
  });

  test.each([
    ["1 - Red - Battery +\n2 - Black - Ground\n3 - White/Black - Left speaker\n"],
    ["Pin 1: Red\nPin 2: Black\nPin 3: White/Black\n"],
  ])("a list of pins as people type it is a pin chart", (text) => {
    expect(wiresOf(text, {}, "plug.txt").map(({ ends, colour }) => [ends, colour])).toEqual([
      ["plug:1", "RD"],
      ["plug:2", "BK"],
      ["plug:3", "WH/BK"],
    ]);
  });

  test("several far ends in one cell are a wire to each, and never one connector with a comma in its name", () => {
    const chart = 'Connector,Pin,Colour,Goes to\nJ1,A3,OG,CTS-A\nJ1,A4,BK,"CTS-B, TPS-C"\nJ1,A5,GN,TPS-B\n';
    expect(wiresOf(chart).map(({ ends }) => ends)).toEqual([
      "J1:A3 CTS:A",
      "J1:A4 CTS:B",
      "J1:A4 TPS:C",
      "J1:A5 TPS:B",
    ]);
    const list = 'From,To\nX1:1,"X2:1, X3:1"\nX1:2,X2:2\n';
    expect(warningCodes(problemsOf(list, "a.csv"))).toContain("pin-several");
  });

  test("names without pins are asked about as one point, by name, also once they are confirmed", () => {
    const text = "From;From pin;To;To pin\nX1;1;Hub;\nX2;1;Hub;\n";
    const asked = (accept: readonly "one-point"[]): readonly string[] =>
      (readGood(text, "a.csv", { table: { accept: new Set(accept) } }).proposals ?? []).map((each) => each.text);
    expect(asked([])).toEqual(["Is each of these one point where its wires meet: Hub?"]);
    expect(asked(["one-point"])).toEqual(asked([]));
  });

  test("with a title above, semicolons, decimal commas and German headings", () => {
    const text =
      "Kabelbaum Motor;;;\nStand 3;;;\n\nLeitung;Von;Nach;Aderfarbe;Querschnitt [mm²];Länge [cm]\nW1;A1.X1:36;B3.X:3;WH/RD;0,5;106\nW2;A1.X1:1;B3.X:1;rot;0,75;51,5\n";
    expect(wiresOf(text)).toEqual([
      {
        id: "W1",
        ends: "A1.X1:36 B3.X:3",
        colour: "WH/RD",
        crossSectionMm2: 0.5,
        lengthMm: 1060,
        note: "As written: length 106 cm",
      },
      {
        id: "W2",
        ends: "A1.X1:1 B3.X:1",
        colour: "RD",
        crossSectionMm2: 0.75,
        lengthMm: 515,
        note: "As written: colour rot, length 51,5 cm",
      },
    ]);
  });

  test("in Windows-1252 with tabs", () => {
    const bytes = Uint8Array.from(Buffer.from("Fil\tDe\tVers\tCouleur\nW1\tX1:1\tX2:1\tvert\n", "latin1"));
    expect(wiresOf(bytes)).toEqual([{ id: "W1", ends: "X1:1 X2:1", colour: "GN", note: "As written: colour vert" }]);
  });

  test("in inches and gauge numbers, which are kept as written in the note", () => {
    expect(wiresOf("Wire,From,To,Gauge (AWG),Length (ft)\nW1,X1:1,X2:1,18,2.5")).toEqual([
      {
        id: "W1",
        ends: "X1:1 X2:1",
        crossSectionMm2: 0.823,
        lengthMm: 762,
        note: "As written: size 18 AWG, length 2.5 ft",
      },
    ]);
    expect(wiresOf("Wire,From,To,Size\nW1,X1:1,X2:1,AWG 2/0\nW2,X1:2,X2:2,0.5 mm²")).toEqual([
      { id: "W1", ends: "X1:1 X2:1", crossSectionMm2: 67.43, note: "As written: size AWG 2/0" },
      { id: "W2", ends: "X1:2 X2:2", crossSectionMm2: 0.5 },
    ]);
  });

  test("with two rows for each wire, one for each of its pins", () => {
    const text = "Connector,Pin,Wire,Colour\nA1.X1,36,W1,BU\nB3.X,3,W1,BU\nB3.X,4,,\n";
    const { document } = readGood(text, "a.csv");
    expect(document.wires.map((wire) => wire.ends)).toEqual([["A1.X1:36", "B3.X:3"]]);
    expect(
      document.connectors.map(({ id, component, cavities }) => [id, component, cavities.map((each) => each.id)]),
    ).toEqual([
      ["A1.X1", "A1", ["36"]],
      ["B3.X", "B3", ["3", "4"]],
    ]);
  });

  test("with what a wire is said on one row only", () => {
    const text = "Connector,Pin,Wire,Colour,Length (mm)\nX1,1,W1,BU,\nX2,1,W1,,500\n";
    expect(wiresOf(text)).toEqual([{ id: "W1", ends: "X1:1 X2:1", colour: "BU", lengthMm: 500 }]);
  });

  test("with the pins of one module only, whose wires keep an open end", () => {
    const text = "Pin,Colour,Function,Connector\n1,RD,Supply,A1.X1\n2,BN,,A1.X1\n3,,,A1.X1\n";
    const read = readGood(text, "a.csv");
    expect(read.document.wires.map(({ ends, colour }) => [ends, colour])).toEqual([
      [["A1.X1:1"], "RD"],
      [["A1.X1:2"], "BN"],
    ]);
    expect(read.document.connectors[0]?.cavities.map(({ id, note }) => [id, note])).toEqual([
      ["1", "Supply"],
      ["2", undefined],
      ["3", undefined],
    ]);
    expect(warningCodes(read.warnings).filter((code) => code === "far-ends-absent")).toHaveLength(1);
  });

  test("with a signal alone, which is a wire unless it says that the pin is not used", () => {
    const text = "Connector,Pin,Signal,Colour\nECU,1,INJ 1,light blue\nECU,2,SHIELD,\nECU,3,N/C,\nECU,4,not used,RD\n";
    const { document } = readGood(text, "a.csv");
    expect(document.wires.map(({ ends, net, colour, note }) => [ends[0], net, colour, note])).toEqual([
      ["ECU:1", "INJ 1", "BU", "As written: colour light blue"],
      ["ECU:2", "SHIELD", undefined, undefined],
      ["ECU:4", undefined, "RD", "not used"],
    ]);
    expect(document.connectors[0]?.cavities.map(({ note }) => note)).toEqual([undefined, undefined, "N/C", undefined]);
  });

  test("with a pin that adds to the wire of another row, and is no second wire", () => {
    const text = "Connector,Pin,To,Colour,Signal\nX1,1,,RD,FEED\nX2,1,X1:1,,\n";
    const { document } = readGood(text, "a.csv");
    expect(document.wires.map(({ ends, colour, net }) => [ends, colour, net])).toEqual([
      [["X2:1", "X1:1"], "RD", "FEED"],
    ]);
  });

  test("with wires of which one end is known, in a wire list", () => {
    const text = "Wire,From,To,Colour,Size (mm²),Signal,Note\nW7,,X1:5,BU,0.5,INJ 1,cut off\n";
    const { document } = readGood(text, "a.csv");
    expect(document.wires[0]).toMatchObject({
      id: "W7",
      ends: ["X1:5"],
      colour: "BU",
      crossSectionMm2: 0.5,
      net: "INJ 1",
      note: "cut off",
    });
  });

  test("with pins that name each other, and wires without a name", () => {
    const text = "Connector,Pin,To\nX1,1,X2:1\nX2,1,X1:1\nX2,2,SP1\nX3,1,SP1\n";
    expect(wiresOf(text)).toEqual([
      { id: "W1", ends: "X1:1 X2:1" },
      { id: "W2", ends: "X2:2 SP1" },
      { id: "W3", ends: "X3:1 SP1" },
    ]);
  });

  test("with splices in a column of their own", () => {
    const { document } = readGood("Connector,Pin,Wire,Splice\nX1,1,W1,S7\nX2,1,W2,S7\nX3,1,W3,S7\n", "a.csv");
    expect(document.splices.map((splice) => splice.id)).toEqual(["S7"]);
    expect(document.wires.map((wire) => wire.ends[1])).toEqual(["S7", "S7", "S7"]);
  });

  test("with splices and grounds by beginnings a person has confirmed", () => {
    const text = "Wire,From,To\nW1,X1:1,J7\nW2,X1:2,J7\nW3,X1:3,M12\n";
    const read = readGood(text, "a.csv", { table: { splicePrefixes: ["J"], groundPrefixes: ["M"] } });
    expect(read.document.splices.map((splice) => splice.id)).toEqual(["J7"]);
    expect(read.document.terminalStuds.map(({ id, role }) => [id, role])).toEqual([["M12", "ground"]]);
    expect(warningCodes(read.warnings)).not.toContain("points-assumed");
  });

  test("with connector and pin divided by a slash", () => {
    expect(wiresOf("Wire,From,To\nW1,X1/1,X2/12\nW2,X1/2,X2/A\n").map((wire) => wire["ends"])).toEqual([
      "X1:1 X2:12",
      "X1:2 X2:A",
    ]);
    expect(wiresOf("Wire,From,To\nW1,X1-1,X2-12\n", { endSeparator: "-" }).map((wire) => wire["ends"])).toEqual([
      "X1:1 X2:12",
    ]);
  });

  test("with connector numbers that are used once for each component", () => {
    const text = "Component,Connector,Pin,Wire\nA1,X1,1,W1\nA2,X1,1,W1\n";
    const { document } = readGood(text, "a.csv");
    expect(document.connectors.map(({ id, component }) => [id, component])).toEqual([
      ["A1.X1", "A1"],
      ["A2.X1", "A2"],
    ]);
  });

  test("with the component alone, which then has one connector", () => {
    const { document } = readGood("Component,Pin,Wire\nB3,1,W1\nB4,1,W1\n", "a.csv");
    expect(document.wires.map((wire) => wire.ends)).toEqual([["B3:1", "B4:1"]]);
  });

  test("with halves of an inline connector, by a mate column", () => {
    const text = "Connector,Mates with,Pin,Wire,To\nXC1m,XC1c,1,W1,A1.X1:1\nXC1c,XC1m,1,W2,A2.X1:1\n";
    const { document } = readGood(text, "a.csv");
    const inline = document.connectors.find((connector) => connector.id === "XC1");
    expect(inline?.sides.map(({ id, name }) => [id, name])).toEqual([
      ["m", "XC1m"],
      ["c", "XC1c"],
    ]);
    expect(document.wires.map((wire) => wire.ends[0])).toEqual(["XC1m:1", "XC1c:1"]);
  });

  test("with halves of an inline connector, by a pair a person has confirmed", () => {
    const text = "Wire,From,To\nW1,P7:1,A1.X1:1\nW2,J7:1,A2.X1:1\n";
    const { document } = readGood(text, "a.csv", { table: { inlinePairs: [{ sides: ["P7", "J7"], id: "C7" }] } });
    const inline = document.connectors.find((connector) => connector.id === "C7");
    expect(inline?.kind).toBe("inline");
    expect(document.wires.map((wire) => wire.ends[0])).toEqual(["P7:1", "J7:1"]);
  });

  test("with options by name or by expression", () => {
    const text = "Wire,From,To,Option\nW1,X1:1,X2:1,A & !B\nW2,X1:2,X2:2,Cold package\nW3,X1:3,X2:3,\n";
    const { document } = readGood(text, "a.csv");
    expect(document.wires.map((wire) => wire.when)).toEqual(["A & !B", "Cold-package", undefined]);
    expect(document.options.map(({ id, label }) => [id, label])).toEqual([
      ["Cold-package", "Cold package"],
      ["A", "A"],
      ["B", "B"],
    ]);
    expect(document.builds.map((build) => build.options)).toEqual([[], ["A"], ["Cold-package"]]);
  });

  test("with a mapping and units a person has chosen", () => {
    const mapping = {
      shape: "wire",
      columns: [
        { column: 2, field: "from" },
        { column: 0, field: "to" },
        { column: 1, field: "crossSection", unit: "mm2" },
      ],
    } as const;
    expect(wiresOf("x,y,z\nX1:1,0.5,X2:1\n", { mapping, headingRow: 1 })).toEqual([
      { id: "W1", ends: "X2:1 X1:1", crossSectionMm2: 0.5 },
    ]);
  });

  test("says in each wire which row it was found in", () => {
    expect(readGood("Wire,From,To\nW1,X1:1,X2:1\n", "list.csv").document.wires[0]?.origin).toEqual({
      source: "list.csv, row 2",
    });
  });

  test("can be left in the middle", () => {
    const reading = csvReader.read(encodeUtf8("Wire,From,To\nW1,X1:1,X2:1\n"), { fileName: "a.csv" });
    expect(runReading(reading, ({ share }) => share < 0.5)).toBeUndefined();
    const shares: number[] = [];
    runReading(csvReader.read(encodeUtf8("Wire,From,To\nW1,X1:1,X2:1\n"), { fileName: "a.csv" }), ({ share }) => {
      shares.push(share);
      return true;
    });
    expect(shares).toEqual([...shares].sort((first, second) => first - second));
  });
});

describe("a workbook of the workshop", () => {
  const rows = [
    ["Connector", "Pin", "Wire", "Colour"],
    ["A1.X1", "36", "W1", "BU"],
    ["B3.X", "3", "W1", "BU"],
  ];

  test("with texts in a table of their own, parts in other colours and guides to reading", () => {
    const cells = rows.flat();
    const sharedStrings = cells
      .map((text, at) =>
        at === 3 ? "<si><r><t>Col</t></r><r><t>our</t></r><rPh><t>x</t></rPh></si>" : `<si><t>${text}</t></si>`,
      )
      .join("");
    const sheet = `<sheetData>${rows.map((row, at) => `<row r="${at + 1}">${row.map((_, column) => `<c r="${"ABCD"[column] ?? ""}${at + 1}" t="s"><v>${at * 4 + column}</v></c>`).join("")}</row>`).join("")}</sheetData>`;
    expect(wiresOf(makeXlsx({ sheet, sharedStrings }), {}, "a.xlsx")).toEqual([
      { id: "W1", ends: "A1.X1:36 B3.X:3", colour: "BU" },
    ]);
  });

  test("with numbers as pins, cells without names and rows left out", () => {
    const sheet = inlineRows([["Connector", "Pin", "To", "Size (mm²)"]]).replace(
      "</sheetData>",
      '<row><c t="inlineStr"><is><t>X1</t></is></c><c><v>36</v></c><c t="inlineStr"><is><t>X2:3</t></is></c><c><v>0.34999999999999998</v></c></row><row r="90"><c r="A90" t="inlineStr"><is><t>X2</t></is></c><c r="B90"><v>3</v></c></row></sheetData>',
    );
    expect(wiresOf(makeXlsx({ sheet }), {}, "a.xlsx")).toEqual([
      { id: "W1", ends: "X1:36 X2:3", crossSectionMm2: 0.35 },
    ]);
  });

  test("reads the sheet that is asked for, and by itself one that is not hidden", () => {
    const hidden = makeXlsx({ sheet: inlineRows(rows), sheetState: "hidden" });
    expect(wiresOf(hidden, {}, "a.xlsx")).toHaveLength(1);
    expect(
      wiresOf(makeXlsx({ sheet: inlineRows(rows), sheetName: "Blatt 1" }), { sheet: "Blatt 1" }, "a.xlsx"),
    ).toHaveLength(1);
  });

  test("names sheet and row of a problem", () => {
    const sheet = inlineRows([...rows, ["X9", "1", "W9", "B"]]);
    const found = problemsOf(makeXlsx({ sheet }), "a.xlsx").find((problem) => problem.code === "colour-unknown");
    expect(found?.at).toEqual({ file: "a.xlsx", sheet: "Pins", row: 4, column: "Colour" });
  });
});

function preview(content: string | Uint8Array, table: TableOptions = {}): TablePreview {
  const bytes = typeof content === "string" ? encodeUtf8(content) : content;
  const result = runReading(previewTable(bytes, { fileName: "a.csv", table }));
  if (!result?.ok) throw new Error("There is no preview");
  return result.value;
}

describe("previewTable()", () => {
  const text =
    "Wire;From;To;Colour;Weight;Size (mm²)\nW1;X5m:1;X2:1;RD;3;0,5\nW2;X5c:1;X3:1;B;3;0,5\nW3;X3:2;X2:2;B;3;0,5\n";

  test("tells everything a person may want to change", () => {
    const found = preview(text);
    expect(found).toMatchObject({
      format: "csv",
      encoding: "UTF-8",
      delimiter: ";",
      headingRow: 1,
      decimal: "comma",
      rowCount: 3,
    });
    expect(found.proposed.unmapped).toEqual([4]);
    expect(found.colours).toEqual([
      { written: "B", count: 2 },
      { written: "RD", count: 1, colour: "RD" },
    ]);
    expect(found.possiblePairs).toEqual([{ sides: ["X5m", "X5c"], id: "X5" }]);
    expect(found.firstWires[0]).toEqual({
      row: 2,
      wire: "W1",
      from: "X5m:1",
      to: "X2:1",
      facts: { colour: "RD", crossSectionMm2: 0.5, note: "Weight: 3" },
    });
    expect(warningCodes(found.problems)).toEqual(
      expect.arrayContaining(["column-unmapped", "colour-unknown", "colour-scheme-assumed"]),
    );
  });

  test("takes what a person has changed", () => {
    const colours: ColourScheme = {
      kind: "codes",
      codes: [
        ["B", "BU"],
        ["RD", "RD"],
      ],
    };
    expect(preview(text, { colours }).colours.map((each) => each.colour)).toEqual(["BU", "RD"]);
  });

  test("lists the sheets of a workbook", () => {
    const found = preview(
      makeXlsx({
        sheet: inlineRows([
          ["Connector", "Pin"],
          ["X1", "1"],
        ]),
        sheetName: "Blatt 1",
      }),
    );
    expect(found).toMatchObject({ format: "xlsx", sheets: ["Blatt 1"], sheet: "Blatt 1" });
  });
});
