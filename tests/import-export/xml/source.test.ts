import { describe, expect, test } from "vitest";
import { layRoute, mapColours } from "../../../src/import-export/xml/add-wires.ts";
import { findColourCodes } from "../../../src/import-export/xml/assembly.ts";
import type { RawColour } from "../../../src/import-export/xml/harness-source.ts";
import { projectNodes } from "../../../src/import-export/xml/assemble-source.ts";
import { readNumber, unitFactor, type Measure, type UnitFacts } from "../../../src/import-export/xml/source-facts.ts";

describe("unitFactor()", () => {
  const si = (siName: string, siPrefix?: string, exponent = 1): UnitFacts => ({
    siName,
    siPrefix,
    exponent,
    otherName: undefined,
  });
  const other = (otherName: string): UnitFacts => ({ siName: undefined, siPrefix: undefined, exponent: 1, otherName });
  // Source: the International System of Units, prefixes and powers.
  test.each<[Measure, UnitFacts, number | undefined]>([
    ["length", si("metre", "milli"), 1],
    ["length", si("Metre", "Milli"), 1],
    ["length", si("metre"), 1000],
    ["length", si("metre", "centi"), 10],
    ["length", si("metre", "kilo"), 1e6],
    ["area", si("metre", "milli", 2), 1],
    ["area", si("metre", "centi", 2), 100],
    ["area", si("metre", undefined, 2), 1e6],
    ["area", si("metre", "micro", 2), 1e-6],
    ["current", si("ampere"), 1],
    ["current", si("Ampere", "Milli"), 1e-3],
    ["current", other("ampere"), 1],
    ["length", other("inch"), 25.4],
    ["length", other("MMT"), 1],
    ["length", si("metre", "milli", 2), undefined],
    ["area", si("metre", "milli"), undefined],
    ["length", si("gram"), undefined],
    ["length", si("metre", "parsec"), undefined],
    ["length", other("GramPerMetre"), undefined],
    ["length", other("constructor"), undefined],
    ["length", other(""), undefined],
  ])("of %s in %j is %s", (measure, unit, factor) => {
    expect(unitFactor(measure, unit)).toBe(factor);
  });
});

describe("readNumber()", () => {
  test.each([
    ["1", 1],
    ["-1.5", -1.5],
    ["+.5", 0.5],
    ["1e3", 1000],
    ["5.", 5],
    ["1,5", undefined],
    ["0x10", undefined],
    ["INF", undefined],
    ["NaN", undefined],
    ["1e999", undefined],
    ["", undefined],
    [" 1", undefined],
    [undefined, undefined],
  ])("of %j is %s", (text, expected) => {
    expect(readNumber(text)).toBe(expected);
  });
});

describe("colours", () => {
  const raw = (...texts: readonly string[]): RawColour[] =>
    texts.map((text, at) => ({ role: (["base", "tracer", "more"] as const)[at] ?? "more", text }));

  test.each([
    [["sw", "ws", "br"], "german"],
    [["SCHWARZ", "grün"], "german"],
    [["BK", "WH", "GN"], "iec-60757"],
    [["black", "white"], "english"],
    [["gn"], "iec-60757"],
    [["?"], "iec-60757"],
    [[], "iec-60757"],
  ])("of the codes %j are read as %s", (texts, scheme) => {
    expect(findColourCodes(texts.flatMap((text) => raw(text)))).toMatchObject({ name: scheme, isKnown: false });
  });

  test("a list that the file names wins over the codes themselves", () => {
    const named: RawColour = { role: "base", text: "sw", system: "IEC 60757" };
    expect(findColourCodes([named])).toMatchObject({ name: "iec-60757", isKnown: true });
  });

  test("what the person says wins over both", () => {
    const codes = findColourCodes(raw("sw"), {
      kind: "codes",
      codes: [
        ["S", "SR"],
        ["s", "BK"],
      ],
    });
    expect([codes.isKnown, codes.codeOf("S"), codes.codeOf("s"), codes.codeOf("sw")]).toEqual([
      true,
      "SR",
      "BK",
      undefined,
    ]);
    expect(findColourCodes(raw("sw"), { kind: "iec-60757" })).toMatchObject({ name: "iec-60757", isKnown: true });
  });

  // Source: IEC 60757 for the letter codes; German codes are common practice.
  test.each([
    [raw("sw", "vi"), "BK/VT", []],
    [raw("rt"), "RD", []],
    [raw("gr", "ws"), "GY/WH", []],
    [raw("blk"), undefined, []],
    [raw("sw", "xy"), undefined, ["xy"]],
    [raw("sw", "rt", "ge"), "BK/RD", []],
    [[{ role: "tracer", text: "vi" } as const, { role: "base", text: "sw" } as const], "BK/VT", []],
    [[{ role: "tracer", text: "rt" } as const], "RD", []],
    [[], undefined, []],
  ])("%j becomes %s", (colours, colour, unknown) => {
    expect(mapColours(colours, findColourCodes(raw("sw", "rt")))).toMatchObject({ colour, unknown });
  });
});

describe("layRoute()", () => {
  const known = new Map(
    Object.entries({ s1: ["a", "b"], s2: ["c", "b"], s3: ["c", "d"], loop: ["c", "c2"] }).map(
      ([key, [from = "", to = ""]]) => [key, { from, to }],
    ),
  );
  test.each([
    [
      ["s1", "s2", "s3"],
      ["a", "d"],
      ["s1", "s2", "s3"],
    ],
    [
      ["s3", "s2", "s1"],
      ["a", "d"],
      ["s1", "s2", "s3"],
    ],
    [
      ["s1", "s2"],
      [undefined, "c"],
      ["s1", "s2"],
    ],
    [
      ["s1", "s2"],
      ["c", undefined],
      ["s2", "s1"],
    ],
    [
      ["s1", "s2"],
      [undefined, undefined],
      ["s1", "s2"],
    ],
    [
      ["s1", "s1"],
      ["a", "a"],
      ["s1", "s1"],
    ],
    [
      ["s2", "loop", "loop", "s3"],
      ["b", "d"],
      ["s2", "loop", "loop", "s3"],
    ],
  ] as const)("lays %j between %j", (segments, [from, to], laid) => {
    expect(layRoute(segments, known, [from, to])).toEqual({ kind: "laid", segments: laid });
  });

  test.each([
    [["s1", "s3"], ["a", "d"], /no chain/u],
    [["s1", "s2"], ["a", "d"], /does not join/u],
    [["s1", "x"], ["a", "d"], /"x" is not there/u],
    [["s2", "s1", "s3"], ["a", "d"], /no chain/u],
  ] as const)("says why %j between %j is none", (segments, [from, to], reason) => {
    const laid = layRoute(segments, known, [from, to]);
    expect(laid.kind === "broken" && laid.reason).toMatch(reason);
  });
});

describe("projectNodes()", () => {
  const node = (key: string, ...position: readonly number[]) => ({
    key,
    name: key,
    at: {},
    position: position.length > 0 ? position : undefined,
    madeOf: [],
  });

  test("drops the axis of least spread and turns the drawing upright", () => {
    const drawn = projectNodes([
      node("rear", 4000, 0, 500),
      node("front", 0, 100, 480),
      node("left", 2000, -900, 510),
      node("none"),
    ]);
    expect([...drawn]).toEqual([
      ["rear", { x: 1200, y: 30 }],
      ["front", { x: 0, y: 0 }],
      ["left", { x: 600, y: 300 }],
    ]);
  });

  test("takes two coordinates, one node, and none", () => {
    expect([...projectNodes([node("a", 0, 0), node("b", 10, 5)])]).toEqual([
      ["a", { x: 0, y: 600 }],
      ["b", { x: 1200, y: 0 }],
    ]);
    expect([...projectNodes([node("a", 5, 5, 5)])]).toEqual([["a", { x: 0, y: 0 }]]);
    expect([...projectNodes([])]).toEqual([]);
  });
});
