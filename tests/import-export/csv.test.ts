import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { guardCell, parseCsv, unguardCell, writeCsv } from "ohmward/import-export";
import { findDelimiter } from "../../src/import-export/csv.ts";

const cellsOf = (text: string, delimiter?: "," | ";" | "\t"): readonly (readonly string[])[] => {
  const parsed = parseCsv(text, delimiter === undefined ? {} : { delimiter });
  if (!parsed.ok) throw new Error(parsed.error.map((problem) => problem.message).join("; "));
  return parsed.value.rows.map((row) => row.cells);
};

describe("parseCsv()", () => {
  // Source: RFC 4180, section 2, the examples of rules 1 to 7.
  test.each([
    [
      "rule 1",
      "aaa,bbb,ccc\r\nzzz,yyy,xxx\r\n",
      [
        ["aaa", "bbb", "ccc"],
        ["zzz", "yyy", "xxx"],
      ],
    ],
    [
      "rule 2",
      "aaa,bbb,ccc\r\nzzz,yyy,xxx",
      [
        ["aaa", "bbb", "ccc"],
        ["zzz", "yyy", "xxx"],
      ],
    ],
    [
      "rule 5",
      '"aaa","bbb","ccc"\r\nzzz,yyy,xxx',
      [
        ["aaa", "bbb", "ccc"],
        ["zzz", "yyy", "xxx"],
      ],
    ],
    [
      "rule 6",
      '"aaa","b\r\nbb","ccc"\r\nzzz,yyy,xxx',
      [
        ["aaa", "b\r\nbb", "ccc"],
        ["zzz", "yyy", "xxx"],
      ],
    ],
    ["rule 7", '"aaa","b""bb","ccc"', [["aaa", 'b"bb', "ccc"]]],
  ])("reads the example of %s of the standard", (_rule, text, cells) => {
    expect(cellsOf(text)).toEqual(cells);
  });

  test.each([
    [
      "a byte order mark",
      "\uFEFFa,b\n1,2",
      [
        ["a", "b"],
        ["1", "2"],
      ],
    ],
    [
      "bare carriage returns",
      "a,b\r1,2\r",
      [
        ["a", "b"],
        ["1", "2"],
      ],
    ],
    [
      "line ends of all sorts",
      "a,b\r\n1,2\n3,4\r5,6",
      [
        ["a", "b"],
        ["1", "2"],
        ["3", "4"],
        ["5", "6"],
      ],
    ],
    ["a quote inside a cell", 'a,5" pipe,c', [["a", '5" pipe', "c"]]],
    [
      "blanks after a quote",
      '"a" ,"b"\n"c","d"  \n',
      [
        ["a", "b"],
        ["c", "d"],
      ],
    ],
    ["an empty quoted cell", '"",b', [["", "b"]]],
    ["rows of different lengths", "a,b,c\n1\n2,3", [["a", "b", "c"], ["1"], ["2", "3"]]],
  ])("reads %s", (_name, text, cells) => {
    // The mark is taken off by the decoder, and by whoever hands a text over.
    expect(cellsOf(text.replace("\uFEFF", ""))).toEqual(cells);
  });

  test("counts rows and lines, quoted line ends and blank rows among them", () => {
    const parsed = parseCsv('a,b\n"1\n1\r\n1",2\n\n3,4\n');
    expect(parsed.ok && parsed.value.rows.map(({ row, line }) => ({ row, line }))).toEqual([
      { row: 1, line: 1 },
      { row: 2, line: 2 },
      { row: 4, line: 6 },
    ]);
  });

  test("names the line of a quote that is wrong", () => {
    const open = parseCsv('a,b\n1,"2\n3,4\n');
    expect(open.ok ? [] : open.error.map(({ code, at }) => ({ code, at }))).toEqual([
      { code: "quote-open", at: { line: 2 } },
    ]);
    const stray = parseCsv('a,b\n"1"x,2\n"3"y,4');
    expect(stray.ok ? [] : stray.error.map(({ code, at }) => [code, at.line])).toEqual([
      ["quote-stray", 2],
      ["quote-stray", 3],
    ]);
  });

  test("needs no more than moments for a text made of quotes", () => {
    expect(parseCsv(`"a${'"x'.repeat(500_000)}`).ok).toBe(false);
    expect(parseCsv(`${'a"'.repeat(500_000)},b`).ok).toBe(false);
  });

  test("gives back what writeCsv() wrote, formulas among it", () => {
    const cell = fc.oneof(
      fc.constantFrom("", "=1+1", "'=1", "''@x", "-5", "+", "\t", "\r", "\n", '"', '""', ",", ";", " ", "'", "'a"),
      fc.string({ unit: "grapheme", maxLength: 12 }),
      fc.string({ maxLength: 12 }),
    );
    // A row of blanks is no row.
    const row = fc
      .array(
        cell.filter((text) => !text.includes("\0")),
        { minLength: 2, maxLength: 5 },
      )
      .map((cells) => ["x", ...cells]);
    fc.assert(
      fc.property(fc.array(row, { minLength: 1, maxLength: 6 }), (rows) => {
        expect(cellsOf(writeCsv(rows), ",")).toEqual(rows);
      }),
      { seed: 4, numRuns: 500 },
    );
  });
});

describe("guardCell()", () => {
  test.each(["=1", "+1", "-1", "@x", "\tx", "\rx", "'=1"])("puts an apostrophe before %j", (text) => {
    expect(guardCell(text)).toBe(`'${text}`);
    expect(unguardCell(guardCell(text))).toBe(text);
  });

  test.each(["", "a=1", "'", "'a", "5", " =1"])("leaves %j alone", (text) => {
    expect(guardCell(text)).toBe(text);
    expect(unguardCell(text)).toBe(text);
  });

  test("leaves no text that a spreadsheet would run", () => {
    fc.assert(
      fc.property(fc.string({ maxLength: 8 }), (text) => {
        expect(guardCell(text)).not.toMatch(/^[=+\-@\t\r]/u);
        expect(unguardCell(guardCell(text))).toBe(text);
      }),
      { seed: 5, numRuns: 2000 },
    );
  });
});

describe("findDelimiter()", () => {
  test.each([
    ["a,b,c\n1,2,3", ","],
    ["a;b;c\n0,5;2,5;3", ";"],
    ["a\tb\tc\n0,5\t2;5\t3", "\t"],
    ['a;b\n"1,2,3";4\n"x,y,z";5', ";"],
    ["no cells at all", undefined],
  ] as const)("of %j is %j", (text, delimiter) => {
    expect(findDelimiter(text)).toBe(delimiter);
  });
});
