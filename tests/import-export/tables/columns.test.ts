import { describe, expect, test } from "vitest";
import { toMillimetres, readUnit } from "ohmward/import-export";
import { readGauge } from "../../../src/import-export/tables/wire-facts.ts";

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
    ["AWG", "AWG"],
    ["ga.", "AWG"],
  ])("reads %j as %j", (text, unit) => {
    expect(readUnit(text)).toBe(unit);
  });
});
