import { expect, test } from "vitest";
import { formatCrossSectionMm2, formatLengthMm } from "ohmward/base";

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
