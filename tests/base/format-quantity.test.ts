import { describe, expect, test } from "vitest";
import {
  formatQuantity,
  type QuantityUnit,
  formatCrossSectionMm2,
  formatLengthMm,
  formatMinutes,
  formatNumber,
} from "ohmward/base";

describe("formatQuantity()", () => {
  test.each<[number, QuantityUnit, string]>([
    [12.44, "V", "12.44 V"],
    [12.648, "V", "12.65 V"],
    [5.009, "V", "5.01 V"],
    [0.5212, "V", "0.52 V"],
    [0.1, "V", "0.1 V"],
    [0.09996, "V", "0.1 V"],
    [0.095, "V", "95 mV"],
    [0.085, "V", "85 mV"],
    [0.08534, "V", "85.3 mV"],
    [59.994, "V", "59.99 V"],
    [60.04, "V", "60 V"],
    [119.96, "V", "120 V"],
    [1000.4, "V", "1000 V"],
    [0.104, "A", "0.1 A"],
    [0.0456, "A", "45.6 mA"],
    [0.045612, "A", "45.61 mA"],
    [-0.085, "V", "-85 mV"],
    [0, "V", "0 V"],
    [-0, "A", "0 A"],
    [0.0000004, "A", "0 A"],
    [1, "A", "1 A"],
    [0.35, "Ω", "0.3 Ω"],
    [0.36, "Ω", "0.4 Ω"],
    [612.4, "Ω", "612 Ω"],
    [1234, "Ω", "1.23 kΩ"],
    [61_230, "Ω", "61.2 kΩ"],
    [1200, "Ω", "1.2 kΩ"],
    [999.6, "Ω", "1 kΩ"],
    [999_600, "Ω", "1 MΩ"],
    [10_000_000, "Ω", "10 MΩ"],
    [60, "Ω", "60 Ω"],
    [87.5, "%", "87.5 %"],
    [-18, "°C", "-18 °C"],
    [1430, "mm", "1430 mm"],
  ])("writes %d %s as %s", (value, unit, text) => {
    expect(formatQuantity(value, unit)).toBe(text);
  });

  test("keeps as many digits as asked", () => {
    expect(formatQuantity(12.345, "V", 2)).toBe("12 V");
    expect(formatQuantity(12.345, "V", 5)).toBe("12.345 V");
    expect(formatQuantity(4999.5, "Ω", 5)).toBe("4.9995 kΩ");
  });

  test.each([Number.NaN, Infinity])("refuses %d: an open line is not a number", (value) => {
    expect(() => formatQuantity(value, "Ω")).toThrow(RangeError);
  });
});

test.each([
  [60, "60 mm"],
  [0.4, "0 mm"],
  [999.4, "999 mm"],
  [999.6, "1 m"],
  [1060, "1.06 m"],
  [12_345, "12.35 m"],
])("formatLengthMm() writes %d as %s", (lengthMm, text) => {
  expect(formatLengthMm(lengthMm)).toBe(text);
});

test.each([
  [0.5, "0.5 mm²"],
  [0.35, "0.35 mm²"],
  [25, "25 mm²"],
  [0.205, "0.205 mm²"],
])("formatCrossSectionMm2() writes %d as %s", (crossSectionMm2, text) => {
  expect(formatCrossSectionMm2(crossSectionMm2)).toBe(text);
});

test("both refuse what is not finite", () => {
  expect(() => formatLengthMm(Number.NaN)).toThrow(RangeError);
  expect(() => formatCrossSectionMm2(Infinity)).toThrow(RangeError);
});

test.each([
  [0, "0 min"],
  [0.4, "0.5 min"],
  [4, "4 min"],
  [9.7, "9.5 min"],
  [9.8, "10 min"],
  [12.3, "12 min"],
  [59.6, "1 h"],
  [90, "1 h 30 min"],
])("formatMinutes() writes %d as %s", (minutes, text) => {
  expect(formatMinutes(minutes)).toBe(text);
});

test.each([-1, Number.NaN, Infinity])("formatMinutes() refuses %d", (minutes) => {
  expect(() => formatMinutes(minutes)).toThrow(RangeError);
});

test.each([
  [0.5, 3, "0.5"],
  [3, 2, "3"],
  [-3.1, 0, "-3"],
  [1060, 0, "1060"],
  [100, 2, "100"],
  [-0.001, 2, "0"],
  [1234567.891, 1, "1234567.9"],
])("formatNumber() writes %d with at most %i decimals as %s", (value, decimals, text) => {
  expect(formatNumber(value, decimals)).toBe(text);
});

test.each([Number.NaN, Infinity, -Infinity])("formatNumber() refuses %d", (value) => {
  expect(() => formatNumber(value, 1)).toThrow(RangeError);
});
