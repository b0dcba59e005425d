import { expect, test } from "vitest";
import { reportWish, wantsJson } from "../../src/cli/report-wish.ts";

test.each([
  ["circuit demo B3", { withFiles: false }],
  ["circuit demo B3 --report a.json", { file: "a.json", withFiles: false }],
  ["circuit demo B3 --report=a.json --report-files", { file: "a.json", withFiles: true }],
  ["circuit demo B3 --report-files", { withFiles: true }],
  ["circuit demo B3 --report", { withFiles: false }],
  ["circuit demo B3 --report=", { withFiles: false }],
  ["circuit demo -- --report a.json --report-files", { withFiles: false }],
])("reportWish() reads %s", (line, wish) => {
  expect(reportWish(line.split(" "))).toEqual(wish);
});

test("wantsJson() looks before the end of the options only", () => {
  expect([wantsJson(["find", "--json"]), wantsJson(["find", "--", "--json"])]).toEqual([true, false]);
});
