import { expect, test } from "vitest";
import { safeLines } from "ohmward/base";

// Source: Unicode Standard, section 5.8, table of newline functions; the tab would break columns.
test.each(["\n", "\r\n", "\r", "\v", "\f", "\u0085", "\u2028", "\u2029", "\t", "\n\n"])(
  "safeLines() makes %j within a line a space",
  (end) => {
    expect(safeLines([`Lamp${end}Cautions`, "next"])).toBe("Lamp Cautions\nnext\n");
  },
);

test("safeLines() shows what steers", () => {
  expect(safeLines(["a\u001b[31m\u202eb"])).toBe("a\\u001b[31m\\u202eb\n");
});

test("safeLines() leaves start and end of a word that no name is as long as", () => {
  const [line = ""] = safeLines([`before ${"a".repeat(5000)}${"z".repeat(5000)} after`]).split("\n");
  expect(line).toMatch(/^before a{100}…\(10000 characters\)…z{50} after$/u);
  const path = `/${"a".repeat(4095)}`;
  expect(safeLines([path])).toBe(`${path}\n`);
});
