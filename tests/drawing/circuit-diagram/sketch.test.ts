import { textWidth } from "ohmward/drawing";
import { describe, expect, test } from "vitest";
import { wrapText, writeRows, wordRow } from "../../../src/drawing/circuit-diagram/sketch.ts";

describe("wrapText()", () => {
  test("breaks between words, and no row is wider than it may be", () => {
    const rows = wrapText("Engine control unit main relay, contact 30-87", 124, 3);
    expect(rows.join(" ")).toBe("Engine control unit main relay, contact 30-87");
    expect(Math.max(...rows.map((row) => textWidth(row, "plain", 12)))).toBeLessThanOrEqual(124);
  });

  test("ends in an ellipsis where rows or a word do not fit", () => {
    expect(wrapText("one two three four", 20, 2).at(-1)).toMatch(/…$/u);
    const [row = ""] = wrapText("W".repeat(80), 100, 1);
    expect([row.endsWith("…"), textWidth(row, "plain", 12) <= 100]).toEqual([true, true]);
    expect(wrapText("", 100, 3)).toEqual([]);
  });
});

test("writeRows() covers each of its texts", () => {
  const { blocks, shapes } = writeRows([wordRow("Fuel lift pump", true), wordRow("2.2 Ω", false)], 10, 100);
  expect(blocks.map(({ y0, y1 }) => [y0, y1])).toEqual([[100, 116], [116, 132]]); // prettier-ignore
  expect(shapes.map((shape) => shape.kind === "text" && shape.text)).toEqual(["Fuel lift pump", "2.2 Ω"]);
});
