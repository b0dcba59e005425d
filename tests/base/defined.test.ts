import { expect, test } from "vitest";
import { defined } from "ohmward/base";

test("defined() leaves out what is undefined and nothing else", () => {
  const fields = { a: undefined, b: null, c: 0, d: "", e: false, f: [] };
  expect(Object.entries(defined(fields))).toEqual(Object.entries(fields).slice(1));
});
