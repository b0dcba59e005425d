import { expect, test } from "vitest";
import { faultLine } from "ohmward/base";

test.each([
  [new TypeError("x is\n  not a function"), "TypeError: x is not a function"],
  ["words", "words"],
  [undefined, "undefined"],
  [new Error("y".repeat(1000)), `Error: ${"y".repeat(293)}`],
])("faultLine() tells what was thrown in one line of at most 300 letters, case %#", (fault, line) => {
  expect(faultLine(fault)).toBe(line);
});
