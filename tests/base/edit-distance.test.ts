import { describe, expect, test } from "vitest";
import fc from "fast-check";
import { editDistance } from "ohmward/base";

describe("editDistance()", () => {
  test.each<[string, string, number, string]>([
    // Textbook pairs: D. Jurafsky and J. H. Martin, "Speech and Language Processing", chapter 2 (intention, execution: 5
    // with replacement counted 1); the others are the usual examples of the method in courses and encyclopaedias.
    ["kitten", "sitting", 3, "two replacements and one insertion"],
    ["intention", "execution", 5, "textbook"],
    ["saturday", "sunday", 3, "textbook"],
    ["flaw", "lawn", 2, "one deletion and one insertion"],
    ["ca", "ac", 1, "one swap"],
    ["ca", "abc", 3, "no part is edited twice: with that rule lifted it would be 2"],
    ["a cat", "an act", 2, "one insertion and one swap"],
    ["", "W89", 3, "all insertions"],
    ["W89", "W89", 0, "equal"],
    ["⏚1", "⏚2", 1, "signs above ASCII count as one"],
    ["🚜1", "1", 1, "signs of two code units count as one"],
  ])("%s to %s takes %i: %s", (first, second, distance) => {
    expect(editDistance(first, second)).toBe(distance);
    expect(editDistance(second, first)).toBe(distance);
  });

  /** The definition itself, by recursion and without a table or limit. */
  function byDefinition(first: string, second: string): number {
    if (first === "") return second.length;
    if (second === "") return first.length;
    const same = first.at(-1) === second.at(-1);
    const choices = [
      byDefinition(first.slice(0, -1), second) + 1,
      byDefinition(first, second.slice(0, -1)) + 1,
      byDefinition(first.slice(0, -1), second.slice(0, -1)) + (same ? 0 : 1),
    ];
    if (first.length > 1 && second.length > 1 && first.at(-1) === second.at(-2) && first.at(-2) === second.at(-1)) {
      choices.push(byDefinition(first.slice(0, -2), second.slice(0, -2)) + 1);
    }
    return Math.min(...choices);
  }

  const word = fc.string({ unit: fc.constantFrom("A", "B", "1"), maxLength: 6 });

  test("agrees with its definition by recursion, with every limit", () => {
    fc.assert(
      fc.property(word, word, fc.integer({ min: 0, max: 6 }), (first, second, limit) => {
        const expected = byDefinition(first, second);
        expect(editDistance(first, second)).toBe(expected);
        expect(editDistance(first, second, limit)).toBe(expected > limit ? Infinity : expected);
      }),
      { seed: 45, numRuns: 300 },
    );
  });
});
