import { describe, expect, test } from "vitest";
import fc from "fast-check";
import { naturalOrder } from "ohmward/base";

describe("naturalOrder()", () => {
  test.each([
    ["W2", "W10"],
    ["A1.X1:2", "A1.X1:10"],
    ["A2.X1:1", "A10.X1:1"],
    ["A1", "A1.X1"],
    ["G2", "G2+"],
    ["9", "A"],
    ["W02", "W2"],
    ["W2", "W03"],
    ["", "0"],
    ["W9007199254740993", "W9007199254740994"],
  ])("puts %s before %s", (first, second) => {
    expect(naturalOrder(first, second)).toBeLessThan(0);
    expect(naturalOrder(second, first)).toBeGreaterThan(0);
  });

  // Short texts of few letters, so that near ties come up often.
  const id = fc.string({ unit: fc.constantFrom("A", "W", ".", ":", "0", "1", "2", "9"), maxLength: 6 });

  test("is 0 only for equal texts and turns its sign with its arguments", () => {
    fc.assert(
      fc.property(id, id, (first, second) => {
        expect(naturalOrder(first, second) === 0).toBe(first === second);
        expect(Math.sign(naturalOrder(first, second)) + Math.sign(naturalOrder(second, first))).toBe(0);
      }),
      { seed: 45, numRuns: 2000 },
    );
  });

  test("is transitive: any three sort the same from any start", () => {
    fc.assert(
      fc.property(id, id, id, (a, b, c) => {
        const sorted = [a, b, c].sort(naturalOrder);
        for (const start of [
          [a, c, b],
          [b, a, c],
          [b, c, a],
          [c, a, b],
          [c, b, a],
        ]) {
          expect(start.sort(naturalOrder)).toEqual(sorted);
        }
      }),
      { seed: 45, numRuns: 2000 },
    );
  });
});
