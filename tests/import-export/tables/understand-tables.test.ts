import { describe, expect, test } from "vitest";
import { findDecimalSign } from "../../../src/import-export/tables/understand-tables.ts";

describe("findDecimalSign()", () => {
  test.each([
    [["0,75", "1.234"], "comma"],
    [["0.5", "1,234"], "point"],
    [["1.234.567"], "comma"],
    [["1,234"], undefined],
    [["0,5", "0.5"], undefined],
    [["5", "abc"], undefined],
  ] as const)("of %j is %s", (texts, sign) => {
    expect(findDecimalSign(texts)).toBe(sign);
  });
});
