import { describe, expect, test } from "vitest";
import { toMillimetres, readUnit } from "ohmward/formats";
import { findDecimalSign, readGauge, readNumber } from "../../../src/formats/tables/read-number.ts";

describe("toMillimetres()", () => {
  // Source: ASTM B258, areas of solid round wire as printed in handbook tables, to four digits.
  test.each([
    ["0000", 107.22],
    ["000", 85.03],
    ["00", 67.43],
    ["0", 53.48],
    ["1", 42.41],
    ["2", 33.63],
    ["4", 21.15],
    ["6", 13.3],
    ["8", 8.366],
    ["10", 5.261],
    ["12", 3.309],
    ["14", 2.081],
    ["16", 1.309],
    ["18", 0.823],
    ["20", 0.5176],
    ["22", 0.3255],
    ["24", 0.2047],
    ["26", 0.1288],
    ["28", 0.081],
    ["30", 0.0509],
  ])("gives the area of AWG %s as the table does", (text, areaMm2) => {
    const gauge = readGauge(text);
    // Four digits are given, and the smallest sizes are printed with three.
    expect(Math.abs(toMillimetres(gauge ?? Number.NaN, "AWG") / areaMm2 - 1)).toBeLessThan(1e-3);
  });

  test.each([
    [1, "in", 25.4],
    [1, "ft", 304.8],
    [2.5, "m", 2500],
    [12.7, "cm", 127],
    [123456.789, "mm", 123456.789],
    [0.35, "mm2", 0.35],
  ] as const)("turns %d %s into %d", (value, unit, wanted) => {
    expect(toMillimetres(value, unit)).toBe(wanted);
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

describe("readUnit()", () => {
  test.each([
    ["mm²", "mm2"],
    ["MM2", "mm2"],
    ["sq. mm", undefined],
    ["qmm", "mm2"],
    ["in.", "in"],
    ['"', "in"],
    ["feet", "ft"],
    ["furlong", undefined],
  ])("reads %j as %j", (text, unit) => {
    expect(readUnit(text)).toBe(unit);
  });
});

describe("readNumber()", () => {
  const value = (number: number) => ({ kind: "number", value: number });

  test.each([
    ["0.75", "point", value(0.75)],
    ["0,75", "comma", value(0.75)],
    ["1.234,5", "comma", value(1234.5)],
    ["1,234.5", "point", value(1234.5)],
    ["1 234,5", "comma", value(1234.5)],
    ["1'234.5", "point", value(1234.5)],
    ["1,234", "point", value(1234)],
    ["1,234", "comma", value(1.234)],
    ["1,234", undefined, { kind: "ambiguous" }],
    ["0,234", undefined, value(0.234)],
    ["1,2345", undefined, value(1.2345)],
    ["12,34,567", "point", { kind: "none" }],
    ["1.2.3", "point", { kind: "none" }],
    [".5", "point", value(0.5)],
    ["-3", undefined, value(-3)],
    ["0.75 mm²", "point", { kind: "number", value: 0.75, unit: "mm2" }],
    ["12 ft", undefined, { kind: "number", value: 12, unit: "ft" }],
    ["12 parsecs", undefined, { kind: "none" }],
    ["", undefined, { kind: "none" }],
    ["about 5", undefined, { kind: "none" }],
    ["NaN", undefined, { kind: "none" }],
    ["1e9", undefined, { kind: "none" }],
  ] as const)("reads %j with decimal %s", (text, decimal, wanted) => {
    expect(readNumber(text, decimal)).toEqual(wanted);
  });
});

describe("findDecimalSign()", () => {
  test.each([
    [["0,75", "1.234"], "comma"],
    [["0.5", "1,234"], "point"],
    [["1.234.567"], "comma"],
    [["1,234"], undefined],
    [["0,5", "0.5"], undefined],
    [["5", "abc"], undefined],
  ] as const)("of %j is %s", (texts, sign) => {
    expect(findDecimalSign(texts)).toBe(sign);
  });
});
