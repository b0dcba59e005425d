import { expect, test } from "vitest";
import { reportWish, wantsJson } from "../../src/cli/report-wish.ts";

test.each([
  ["trace demo B3", { withFiles: false }],
  ["trace demo B3 --report a.json", { file: "a.json", withFiles: false }],
  ["trace demo B3 --report=a.json --report-files", { file: "a.json", withFiles: true }],
  ["trace demo B3 --report-files", { withFiles: true }],
  ["trace demo B3 --report", { withFiles: false }],
  ["trace demo B3 --report=", { withFiles: false }],
  ["trace demo -- --report a.json --report-files", { withFiles: false }],
])("reportWish() reads %s", (line, wish) => {
  expect(reportWish(line.split(" "))).toEqual(wish);
});

test("wantsJson() looks before the end of the options only", () => {
  expect([wantsJson(["find", "--json"]), wantsJson(["find", "--", "--json"])]).toEqual([true, false]);
});
