import fc from "fast-check";
import { expect, test } from "vitest";
import { safeText, safeLines, faultLine } from "ohmward/base";

// Source: Unicode Standard Annex 9, table of bidi controls; ECMA-48 for the controls of a terminal, 8.3.16 for CSI as U+009B.
const CONTROLS = [
  ..."\u0000\u0007\u0009\u000d\u001b\u007f\u0080\u0085\u009b\u009d\u009f",
  ..."\u061c\u200e\u200f\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069",
  ..."\u2028\u2029\u00ad\u200b\ufeff",
];

test.each(CONTROLS.map((each) => [each.charCodeAt(0).toString(16).padStart(4, "0"), each]))(
  "safeText() shows U+%s by its number",
  (number, control) => {
    expect(safeText(`a${control}b`)).toBe(`a\\u${number}b`);
  },
);

test("safeText() writes both halves of a control beyond the first 65,536", () => {
  expect(safeText("a\u{e0041}")).toBe("a\\udb40\\udc41");
});

test("safeText() leaves line feeds, letters of every script and joiners of letters", () => {
  const text = "Zündung\nΩ קו خط می\u200cخواهم 👩\u200d🔧 5 mm²";
  expect(safeText(text)).toBe(text);
});

test("safeText() leaves JSON the same data", () => {
  fc.assert(
    fc.property(fc.string({ unit: fc.oneof(fc.constantFrom(...CONTROLS), fc.string()) }), (text) => {
      const json = safeText(JSON.stringify({ text }));
      expect(JSON.parse(json)).toEqual({ text });
      expect(json).not.toMatch(/[\p{Cc}\u061c\u200e\u200f\u2028-\u202e\u2066-\u2069]/u);
    }),
    { seed: 5 },
  );
});

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

test.each([
  [new TypeError("x is\n  not a function"), "TypeError: x is not a function"],
  ["words", "words"],
  [undefined, "undefined"],
  [new Error("y".repeat(1000)), `Error: ${"y".repeat(293)}`],
])("faultLine() tells what was thrown in one line of at most 300 letters, case %#", (fault, line) => {
  expect(faultLine(fault)).toBe(line);
});
