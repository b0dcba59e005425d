import { describe, expect, test } from "vitest";
import { COLOURS, describeColour, readColour } from "ohmward/harness-model";

// Source: IEC 60757:2021, Code for designation of colours, table 1 (letter codes), in the order of the table.
const table = [
  ["BK", "black"],
  ["BN", "brown"],
  ["RD", "red"],
  ["OG", "orange"],
  ["YE", "yellow"],
  ["GN", "green"],
  ["BU", "blue"],
  ["VT", "violet"],
  ["GY", "grey"],
  ["WH", "white"],
  ["PK", "pink"],
  ["GD", "gold"],
  ["TQ", "turquoise"],
  ["SR", "silver"],
] as const;

test("COLOURS holds the codes of IEC 60757 and no others, in its order, each with a swatch of its own", () => {
  expect(COLOURS.map(({ code, name }) => [code, name])).toEqual(table);
  expect(new Set(COLOURS.map(({ swatch }) => swatch)).size).toBe(table.length);
  for (const { swatch } of COLOURS) expect(swatch).toMatch(/^#[0-9a-f]{6}$/);
});

describe("readColour()", () => {
  test.each(table)("reads %s as %s", (code, name) => {
    expect(readColour(code)?.map((colour) => colour.name)).toEqual([name]);
  });

  test("keeps base and tracer in the order given, for every pair of codes", () => {
    for (const [base] of table) {
      for (const [tracer] of table) {
        expect(readColour(`${base}/${tracer}`)?.map((colour) => colour.code)).toEqual([base, tracer]);
      }
    }
  });

  // Source: IEC 60757:2021 clause 5.1, codes of one item are joined; its example is RDBU.
  test("reads joined codes", () => {
    expect(readColour("RDBU")?.map((colour) => colour.code)).toEqual(["RD", "BU"]);
    expect(readColour("RDXX")).toBeUndefined();
  });

  // Source: IEC 60757, GNYE is the one code for green and yellow together.
  test("reads GNYE as green and yellow", () => {
    expect(readColour("GNYE")?.map((colour) => colour.code)).toEqual(["GN", "YE"]);
  });

  test.each([
    ["B", "black to one maker, blue to another"],
    ["G", "green or grey"],
    ["R", "older one-letter code"],
    ["GR", "common, but the standard has GY and GN"],
    ["BL", "common, but the standard has BK and BU"],
    ["YL", "common, but the standard has YE"],
    ["OR", "common, but the standard has OG"],
    ["BR", "common, but the standard has BN"],
    ["sw", "letters of another language"],
    ["wh", "codes are capital letters"],
    ["white", "a name"],
    ["", "nothing"],
    ["/", "two nothings"],
    ["WH/", "no tracer"],
    ["/RD", "no base"],
    ["WH/RD/BK", "three colours"],
    ["WH-RD", "another sign between"],
    ["WH RD", "a space between"],
    [" WH", "a space before"],
    ["GNYE/BK", "protective colour with a stripe"],
    ["constructor", "a name every object has"],
    ["__proto__", "a name every object has"],
  ])("refuses %j: %s", (text) => {
    expect(readColour(text)).toBeUndefined();
  });
});

test.each([
  ["BU", "blue"],
  ["BU/WH", "blue with white stripe"],
  ["GNYE", "green with yellow stripe"],
  ["<b>", "<b>"],
])("describeColour() says %j as %j", (text, words) => {
  expect(describeColour(text)).toBe(words);
});
