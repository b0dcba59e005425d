import { expect, test } from "vitest";
import { formatNumber } from "ohmward/base";

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
