import { describe, expect, test } from "vitest";
import {
  encodeUtf8,
  previewTable,
  runReading,
  type ColourScheme,
  type TableOptions,
  type TablePreview,
} from "ohmward/formats";
import { inlineRows, makeXlsx } from "../support/make-xlsx.ts";
import { warningCodes } from "../support/read-file.ts";

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
    expect(found.possiblePairs).toEqual([{ halves: ["X5m", "X5c"], id: "X5" }]);
    expect(found.firstWires[0]).toEqual({
      row: 2,
      wire: "W1",
      from: "X5m:1",
      to: "X2:1",
      facts: { colour: "RD", crossSectionMm2: 0.5 },
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
