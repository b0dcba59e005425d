import { describe, expect, test } from "vitest";
import {
  activeRepairs,
  importFile,
  importReport,
  previewImport,
  readTableRepairs,
  writeTableRepairs,
  type ImportReport,
  type MadeRepair,
} from "ohmward/application";
import { encodeUtf8, runReading, type FaultyRow, type ReadResult, type TableRepair } from "ohmward/import-export";

const HEAD = "Wire,From,From pin,To,To pin,Colour,Size (mm²),Length (mm)";
const ROWS = ["K1,M1,1,Q1,1,BK,1.5,800", "K2,M1,2,Q1,2,BK,1.5,8oo", "K3,M1,3,,,BK,1.5,800", "K4,M1,,M1,,plaid,900,800"];

/** A list, with rows written otherwise where that is said. */
function list(change: Readonly<Record<number, string>> = {}): Uint8Array {
  return encodeUtf8([HEAD, ...ROWS].map((line, at) => change[at + 1] ?? line).join("\n"));
}

function read(bytes: Uint8Array, repairs: readonly TableRepair[] = []): ReadResult {
  const result = runReading(importFile(bytes, { fileName: "list.csv", table: { repairs } }));
  if (!result) throw new Error("stopped");
  return result;
}

function report(bytes: Uint8Array, repairs: readonly TableRepair[] = []): ImportReport {
  const files = [{ fileName: "list.csv", format: { id: "csv", label: "CSV" } }];
  return importReport({ files, result: read(bytes, repairs) });
}

function faulty(bytes: Uint8Array, repairs: readonly TableRepair[] = []): readonly FaultyRow[] {
  const seen = runReading(previewImport(bytes, { fileName: "list.csv", table: { repairs } }));
  if (!seen?.ok || seen.value.kind !== "table") throw new Error("no preview");
  return seen.value.preview.faultyRows;
}

const LENGTH: TableRepair = { row: 3, column: 8, text: "850" };

describe("a repair", () => {
  test.each([
    ["of a value", [LENGTH], { 3: "K2,M1,2,Q1,2,BK,1.5,850" }],
    [
      "of an end",
      [
        { row: 4, column: 4, text: "Q1" },
        { row: 4, column: 5, text: "3" },
      ],
      { 4: "K3,M1,3,Q1,3,BK,1.5,800" },
    ],
    ["that is repaired again", [{ row: 3, column: 8, text: "8" }, LENGTH], { 3: "K2,M1,2,Q1,2,BK,1.5,850" }],
    ["of a heading", [{ row: 1, column: 8, text: "Length (m)" }], { 1: HEAD.replace("mm)", "m)") }],
  ] as const)("%s gives what the table gives in which it is written right", (_label, repairs, change) => {
    expect(read(list(), repairs)).toEqual(read(list(change)));
    expect(faulty(list(), repairs)).toEqual(faulty(list(change)));
  });

  test("that is undone gives the same report as before, done again the same as with it", () => {
    const made: MadeRepair = { repair: LENGTH, heading: "Length (mm)", was: "8oo", isUndone: false };
    const [before, after] = [report(list()), report(list(), activeRepairs([made]))];
    expect(after).not.toEqual(before);
    const undone = { ...made, isUndone: true };
    expect(report(list(), activeRepairs([undone]))).toEqual(before);
    expect(report(list(), activeRepairs([{ ...undone, isUndone: false }]))).toEqual(after);
  });

  test("leaves a row out, and keeps its text as a note", () => {
    const result = read(list(), [{ row: 4, leaveOut: true }]);
    if (!result.ok) throw new Error("not read");
    expect(result.value.document.wires.map(({ id }) => id)).not.toContain("K3");
    expect(JSON.stringify(result.value.document)).toContain("Row 4 left out: K3 | M1 | 3 | BK | 1.5 | 800");
  });

  test("of a row that is not there is told", () => {
    const { problems } = report(list(), [{ row: 99, column: 1, text: "K9" }]);
    expect(problems.find(({ code }) => code === "repair-lost")?.at).toMatchObject({ file: "list.csv", row: 99 });
  });

  test("can bring in a table of which no row could be read", () => {
    const bytes = encodeUtf8("Wire,From,To\nW1,,\n");
    expect(read(bytes).ok).toBe(false);
    expect(faulty(bytes).map(({ row }) => row)).toEqual([2]);
    const repairs = [
      { row: 2, column: 2, text: "X1:1" },
      { row: 2, column: 3, text: "X2:1" },
    ];
    expect(read(bytes, repairs)).toEqual(read(encodeUtf8("Wire,From,To\nW1,X1:1,X2:1\n")));
  });
});

describe("a file of repairs", () => {
  test("is read as it was written", () => {
    const repairs: readonly TableRepair[] = [LENGTH, { sheet: "Cab", row: 5, leaveOut: true }];
    expect(readTableRepairs(writeTableRepairs(repairs))).toEqual({ ok: true, value: repairs });
  });

  test.each([
    ["no JSON", "{", /not JSON/u],
    ["a row before the first", '{"repairs": [{"row": 0, "leaveOut": true}]}', /repairs\.0/u],
    ["a cell without its text", '{"repairs": [{"row": 2, "column": 1}]}', /repairs\.0/u],
  ])("that holds %s is refused", (_label, text, reason) => {
    expect(readTableRepairs(text)).toEqual({ ok: false, error: expect.stringMatching(reason) as unknown });
  });
});
