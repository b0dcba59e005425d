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
