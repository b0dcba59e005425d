import fc from "fast-check";
import { expect, test } from "vitest";
import { columns } from "../../../src/application/text/columns.ts";

test("columns() aligns cells and leaves empty columns and blanks at line ends out", () => {
  expect(
    columns([
      ["1", "W89", "", "0.5 mm²", ""],
      ["10", "W9", "", "", ""],
    ]),
  ).toEqual(["  1   W89  0.5 mm²", "  10  W9"]);
  expect(columns([["a"], ["b", "c"]], 0)).toEqual(["a", "b  c"]);
  expect(columns([])).toEqual([]);
});

test("columns() starts each column of every line at the same place (law)", () => {
  const row = fc.tuple(fc.stringMatching(/^[a-z]{1,6}$/), fc.stringMatching(/^[A-Zµ²]{1,6}$/u), fc.constant("END"));
  fc.assert(
    fc.property(fc.array(row, { minLength: 1, maxLength: 8 }), (rows) => {
      const lines = columns(rows);
      expect(new Set(lines.map((line) => line.lastIndexOf("END"))).size).toBe(1);
      expect(new Set(lines.map((line) => line.search(/[A-Zµ²]/u))).size).toBe(1);
    }),
    { seed: 4504, numRuns: 100 },
  );
});
