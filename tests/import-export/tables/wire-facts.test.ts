import { describe, expect, test } from "vitest";
import { readColourText, type ColourScheme } from "ohmward/import-export";
import { readGauge } from "../../../src/import-export/tables/wire-facts.ts";

describe("readColourText()", () => {
  const iec: ColourScheme = { kind: "iec-60757" };
  const letters: ColourScheme = {
    kind: "codes",
    codes: [
      ["B", "BK"],
      ["b", "BU"],
      ["W", "WH"],
      ["R", "RD"],
      ["Br", "BN"],
    ],
  };

  // Source: IEC 60757 for the codes; the words are plain colour words of the language.
  test.each([
    ["WH/RD", iec, "WH/RD"],
    ["wh-rd", iec, "WH/RD"],
    ["WH RD", iec, "WH/RD"],
    ["WHRD", iec, "WH/RD"],
    ["GNYE", iec, "GNYE"],
    ["Grün/Gelb", iec, "GN/YE"],
    ["weiß", iec, "WH"],
    ["B", letters, "BK"],
    ["b", letters, "BU"],
    ["W/R", letters, "WH/RD"],
    ["WR", letters, "WH/RD"],
    ["BrW", letters, "BN/WH"],
  ] as const)("reads %j", (text, scheme, colour) => {
    expect(readColourText(text, scheme)).toEqual({ kind: "colour", colour });
  });

  test.each([
    ["B", iec, "B"],
    ["BL", iec, "BL"],
    ["GR", iec, "GR"],
    ["RD/B", iec, "B"],
    ["RD/WH/BU", iec, "RD/WH/BU"],
    ["G", letters, "G"],
    ["/", iec, "/"],
  ] as const)("does not guess %j", (text, scheme, part) => {
    expect(readColourText(text, scheme)).toEqual({ kind: "unknown", part });
  });
});

describe("readGauge()", () => {
  test.each([
    ["18", 18],
    ["AWG 18", 18],
    ["18 AWG", 18],
    ["#16", 16],
    ["16ga", 16],
    ["0", 0],
    ["00", -1],
    ["2/0", -1],
    ["4/0", -3],
    ["0000", -3],
  ])("reads %j as %d", (text, gauge) => {
    expect(readGauge(text)).toBe(gauge);
  });

  test.each(["", "0.5", "99", "5/0", "0/0", "AWG", "18 mm2"])("reads no gauge in %j", (text) => {
    expect(readGauge(text)).toBeUndefined();
  });
});
