import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { findJsonFault } from "ohmward/harness-model";

// Source: ECMA-404 (JSON). The places are counted by hand.
describe("findJsonFault()", () => {
  test.each([
    ["", 1, 1, "found the end of the text, wanted a value"],
    ["{", 1, 2, "found the end of the text, wanted a key in double quotes or }"],
    ['{"a" 1}', 1, 6, "found 1, wanted a colon"],
    ['{"a":1,}', 1, 8, "found }, wanted a key in double quotes"],
    ["[1 2]", 1, 4, "found 2, wanted a comma or ]"],
    ["[1,\n  2,\n  NaN]", 3, 3, "found N, wanted a value"],
    ["[1]]", 1, 4, "found ], wanted the end of the text"],
    ["[01]", 1, 3, "found 1, wanted a comma or ]"],
    ["\u0000", 1, 1, "found a control character, wanted a value"],
    ['["a\nb"]', 1, 2, "a string is not closed, or holds a line break or a wrong escape"],
    ['["\\x"]', 1, 2, "a string is not closed, or holds a line break or a wrong escape"],
    ["// note", 1, 1, "found /, wanted a value"],
  ])("%j stops at line %i, column %i", (text, line, column, reason) => {
    expect(findJsonFault(text)).toMatchObject({ line, column, reason });
  });

  test("agrees with the parser of the language on what is JSON", () => {
    const broken = fc
      .tuple(fc.json(), fc.nat(), fc.constantFrom("", ",", "]", "}", '"', "x", "\\", "1", ":"))
      .map(
        ([text, at, sign]) => text.slice(0, at % (text.length + 1)) + sign + text.slice((at % (text.length + 1)) + 1),
      );
    let refused = 0;
    fc.assert(
      fc.property(fc.oneof(fc.json(), broken), (text) => {
        let isJson = true;
        try {
          JSON.parse(text);
        } catch {
          isJson = false;
          refused++;
        }
        expect(findJsonFault(text) === undefined).toBe(isJson);
      }),
      { seed: 404, numRuns: 3000 },
    );
    expect(refused).toBeGreaterThan(500);
  });

  test("bears a deep text and a long string", () => {
    expect(findJsonFault("[".repeat(200_000))?.position).toBe(200_000);
    expect(findJsonFault(`["${"x".repeat(5_000_000)}`)?.column).toBe(2);
  });
});
