import { spawnSync } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { openWorkbook, readSheet, runReading, writeWorkbook, type CellValue } from "ohmward/import-export";
import { columnName, columnNumber, readRange } from "../../../src/import-export/xlsx/read-workbook.ts";

function sheetsOf(bytes: Uint8Array): readonly (readonly [string, readonly (readonly string[])[]])[] {
  const workbook = openWorkbook(bytes);
  if (!workbook.ok) throw new Error(workbook.error[0]?.message);
  return workbook.value.sheets.map((sheet) => {
    const read = runReading(readSheet(workbook.value, sheet));
    if (!read?.ok) throw new Error(read?.error[0]?.message);
    return [sheet.name, read.value.table.rows.map((row) => row.cells)];
  });
}

describe("writeWorkbook()", () => {
  test("gives texts and numbers again, whatever they hold", () => {
    const cell: fc.Arbitrary<CellValue> = fc.oneof(
      fc.constantFrom("=1", "_x000D_", "__x0041_", "a\r\nb", " a ", "<&>\"'", "\u0001\ufffe", "\ud800", "😀"),
      fc.string({ unit: "grapheme", minLength: 1, maxLength: 12 }),
      fc.string({ unit: "binary", minLength: 1, maxLength: 6 }),
      fc.integer(),
      fc.integer({ min: -99999, max: 99999 }).map((number) => number / 100),
    );
    fc.assert(
      fc.property(
        fc.array(
          fc.array(cell, { maxLength: 4 }).map((cells) => ["x", ...cells]),
          { minLength: 1, maxLength: 5 },
        ),
        (rows) => {
          const [sheet] = sheetsOf(writeWorkbook([{ name: "A & B", rows }]));
          expect(sheet).toEqual(["A & B", rows.map((row) => row.map(String))]);
        },
      ),
      { seed: 6, numRuns: 150 },
    );
  });

  test("is a zip file and XML that other programs read (needs python3)", (ctx) => {
    const script = [
      "import sys, json, zipfile, xml.etree.ElementTree as et",
      "z = zipfile.ZipFile(sys.argv[1])",
      "assert z.testzip() is None",
      "n = {'m': 'http://schemas.openxmlformats.org/spreadsheetml/2006/main'}",
      "for name in z.namelist(): et.fromstring(z.read(name))",
      "sheet = et.fromstring(z.read('xl/worksheets/sheet1.xml'))",
      "cell = lambda c: c.findtext('m:is/m:t', None, n) if c.get('t') == 'inlineStr' else float(c.findtext('m:v', None, n))",
      "print(json.dumps([[cell(c) for c in r.findall('m:c', n)] for r in sheet.iterfind('.//m:row', n)]))",
    ].join("\n");
    if (spawnSync("python3", ["--version"]).status !== 0) {
      ctx.skip("no python3 found");
      return;
    }
    const folder = mkdtempSync(join(tmpdir(), "ohmward-xlsx-"));
    try {
      const rows = [
        ["Wire", "Größe & <Farbe>"],
        ["W1", 0.35],
      ];
      writeFileSync(join(folder, "a.xlsx"), writeWorkbook([{ name: "Wires", rows }]));
      const run = spawnSync("python3", ["-c", script, join(folder, "a.xlsx")], { encoding: "utf8" });
      expect(run.stderr).toBe("");
      expect(JSON.parse(run.stdout)).toEqual(rows);
    } finally {
      rmSync(folder, { recursive: true });
    }
  });
});

describe("names of cells", () => {
  // Source: ISO/IEC 29500-1: the last column of a sheet is XFD, the 16,384th.
  test.each([
    ["A", 0],
    ["Z", 25],
    ["AA", 26],
    ["AZ", 51],
    ["ZZ", 701],
    ["AAA", 702],
    ["XFD", 16383],
  ])("column %s is number %d", (name, number) => {
    expect(columnNumber(name)).toBe(number);
    expect(columnName(number)).toBe(name);
  });

  test.each(["", "1", "a1", "ABCD1"])("%j is no column", (name) => {
    expect(columnNumber(name)).toBeUndefined();
  });

  test("ranges are read, and nothing else", () => {
    expect(readRange("B2:C10")).toEqual({ top: 2, bottom: 10, left: 1, right: 2 });
    expect(["B2", "2:3", "B:C", ""].map(readRange)).toEqual([undefined, undefined, undefined, undefined]);
  });
});
