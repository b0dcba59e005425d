import { expect, test } from "vitest";
import { formatMinutes } from "ohmward/base";

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
