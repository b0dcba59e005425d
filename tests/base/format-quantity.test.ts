import { describe, expect, test } from "vitest";
import fc from "fast-check";
import { formatQuantity, type QuantityUnit } from "ohmward/base";

describe("formatQuantity()", () => {
  test.each<[number, QuantityUnit, string]>([
    [12.44, "V", "12.4 V"],
    [0.085, "V", "85 mV"],
    [-0.085, "V", "-85 mV"],
    [0, "V", "0 V"],
    [-0, "A", "0 A"],
    [0.0000004, "A", "0.0004 mA"],
    [1, "A", "1 A"],
    [0.35, "Ω", "0.35 Ω"],
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

  test("what it writes reads back as the value, to three digits", () => {
    const factors = new Map([
      ["m", 1e-3],
      ["k", 1e3],
      ["M", 1e6],
    ]);
    fc.assert(
      fc.property(
        fc.double({ min: 1e-6, max: 1e9, noNaN: true }),
        fc.constantFrom<QuantityUnit>("V", "Ω"),
        (value, unit) => {
          const [number = "", shown = ""] = formatQuantity(value, unit).split(" ");
          const factor = factors.get(shown.slice(0, -1)) ?? 1;
          expect(Math.abs((Number(number) * factor) / value - 1)).toBeLessThanOrEqual(0.005_000_1);
        },
      ),
      { seed: 45, numRuns: 1000 },
    );
  });

  test.each([Number.NaN, Infinity])("refuses %d: an open line is not a number", (value) => {
    expect(() => formatQuantity(value, "Ω")).toThrow(RangeError);
  });
});
