import { describe, expect, test } from "vitest";
import { encodeUtf8, previewTable, runReading, type FaultyRow } from "ohmward/import-export";

function faulty(text: string, fileName = "a.csv"): readonly FaultyRow[] {
  const seen = runReading(previewTable(encodeUtf8(text), { fileName }));
  if (!seen?.ok) throw new Error("There is no preview");
  return seen.value.faultyRows;
}

/** What is told of each row: cells at fault, and what may be meant. */
const facts = (rows: readonly FaultyRow[]): readonly unknown[] =>
  rows.flatMap(({ row, faults }) => faults.map(({ columns, proposal }) => [row, columns, proposal]));

describe("faultyRows()", () => {
  test("tells a row with all its cells, those at fault, and a number that may be meant", () => {
    const [row] = faulty("Wire,From,To,Length mm\nW1,X1:1,X2:1,8oo\nW2,X1:2,X2:2,90\n");
    expect(row).toMatchObject({ row: 2, headings: ["Wire", "From", "To", "Length mm"] });
    expect(row?.cells).toEqual(["W1", "X1:1", "X2:1", "8oo"]);
    expect(row?.faults).toMatchObject([{ columns: [4], proposal: "800" }]);
  });

  test.each([
    ["a number beyond guessing", "Wire,From,To,Length mm\nW1,X1:1,X2:1,long\n", [[2, [4], undefined]]],
    ["ends that are missing", "Wire,From,To\nW1,,\nW2,X1:1,X2:1\n", [[2, [2, 3], undefined]]],
    ["both ends at one place", "Wire,From,To\nW1,X1:1,X1:1\nW2,X1:1,X2:1\n", [[2, [2, 3], undefined]]],
    ["a net that is missing", "Net,Connector,Pin\nA,X1,1\nA,X2,1\nB,X1,2\nB,X2,2\n,X3,1\n", [[6, [1], "B"]]],
    ["a line below the rows", "Wire,From,To\nW1,X1:1,X2:1\nChecked by,,\n", [[3, [], undefined]]],
  ])("tells %s", (_label, text, wanted) => {
    expect(facts(faulty(text))).toEqual(wanted);
  });

  test("gives a line below the rows their headings", () => {
    const [line] = faulty("Wire,From,To\nW1,X1:1,X2:1\nChecked by,,\n");
    expect(line?.headings).toEqual(["Wire", "From", "To"]);
  });

  test("leaves codes of colours to the question about them", () => {
    const table = (last: string): string => `Wire,From,To,Colour\nW1,X1:1,X2:1,sw\nW2,X1:2,X2:2,${last}\n`;
    expect(faulty(table("rt"))).toEqual([]);
    expect(faulty(table("plaid")).map(({ row }) => row)).toEqual([2, 3]);
  });

  test("counts the rows of a page through all its tables, so that each has a place of its own", () => {
    const table = (length: string): string =>
      `<table><tr><th>Wire</th><th>From</th><th>To</th><th>Length mm</th></tr><tr><td>W${length}</td><td>X1:${length}</td><td>X2:${length}</td><td>8oo</td></tr></table>`;
    expect(faulty(`<html><body>${table("1")}${table("2")}</body></html>`, "a.html").map(({ row }) => row)).toEqual([
      2, 4,
    ]);
  });
});
