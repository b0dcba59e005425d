import { describe, expect, test } from "vitest";
import fc from "fast-check";
import { seededRandom, type RandomState } from "ohmward/base";

// Source: test "reference" of Xoshiro128StarStar in the Rust crate rand_xoshiro, made there with the authors' C program
// xoshiro128starstar.c version 1.1, from state 1, 2, 3, 4.
const publishedWords = [
  11520, 0, 5927040, 70819200, 2031721883, 1637235492, 1287239034, 3734860849, 3729100597, 4258142804,
];

const mask = 0xffff_ffffn;

/** The same generator written a second time, with whole numbers of any length in place of 32-bit operators. */
function* secondFormulation(state: RandomState): Generator<number, never> {
  let [s0, s1, s2, s3] = state.map((word) => BigInt(word >>> 0)) as [bigint, bigint, bigint, bigint];
  const rotate = (word: bigint, bits: bigint): bigint =>
    ((word * 2n ** bits) % 2n ** 32n) | (word / 2n ** (32n - bits));
  for (;;) {
    const word = (rotate((s1 * 5n) & mask, 7n) * 9n) & mask;
    const next2 = s2 ^ s0;
    const next3 = s3 ^ s1;
    const next1 = s1 ^ next2;
    const next0 = s0 ^ next3;
    [s0, s1, s2, s3] = [next0, next1, next2 ^ ((s1 << 9n) & mask), rotate(next3, 11n)];
    yield Number(word);
  }
}

describe("seededRandom()", () => {
  test("gives the published words from the published state", () => {
    const random = seededRandom([1, 2, 3, 4]);
    expect(publishedWords.map(() => random.next() * 2 ** 32)).toEqual(publishedWords);
  });

  test("agrees with a second formulation from any state", () => {
    const word = fc.integer({ min: 0, max: 2 ** 32 - 1 });
    fc.assert(
      fc.property(fc.tuple(word, word, word, fc.integer({ min: 1, max: 2 ** 32 - 1 })), (state) => {
        const random = seededRandom(state);
        const reference = secondFormulation(state);
        for (let draw = 0; draw < 50; draw += 1) expect(random.next() * 2 ** 32).toBe(reference.next().value);
      }),
      { seed: 45, numRuns: 50 },
    );
  });

  test("is the same for the same seed and another for the next seed", () => {
    const draw = (seed: number): number[] => {
      const random = seededRandom(seed);
      return Array.from({ length: 20 }, () => random.next());
    };
    expect(draw(7)).toEqual(draw(7));
    expect(draw(7)).not.toEqual(draw(8));
    expect(draw(0)).not.toEqual(draw(1));
  });

  test("next() stays within [0, 1) and its mean is near one half", () => {
    const random = seededRandom(1);
    const draws = Array.from({ length: 20_000 }, () => random.next());
    expect(draws.every((value) => value >= 0 && value < 1)).toBe(true);
    // Standard deviation of the mean: 1 / sqrt(12 * 20000) = 0.00204; five of them.
    const mean = draws.reduce((sum, value) => sum + value, 0) / draws.length;
    expect(Math.abs(mean - 0.5)).toBeLessThan(0.0103);
  });

  test("integer() gives each number of its range about equally often, ends included", () => {
    const random = seededRandom(2);
    const counts = new Map<number, number>();
    for (let draw = 0; draw < 12_000; draw += 1) {
      const value = random.integer(-2, 3);
      counts.set(value, (counts.get(value) ?? 0) + 1);
    }
    expect([...counts.keys()].sort((a, b) => a - b)).toEqual([-2, -1, 0, 1, 2, 3]);
    // Chi-squared with 5 degrees of freedom: above 20.5 once in a thousand (NIST/SEMATECH handbook, table 1.3.6.7.4).
    const chiSquared = [...counts.values()].reduce((sum, count) => sum + (count - 2000) ** 2 / 2000, 0);
    expect(chiSquared).toBeLessThan(20.515);
  });

  test("integer() can give the whole range of a word", () => {
    const random = seededRandom([1, 2, 3, 4]);
    expect(publishedWords.map(() => random.integer(0, 2 ** 32 - 1))).toEqual(publishedWords);
  });

  test("shuffle() keeps every item, leaves the list alone and reaches every order", () => {
    const random = seededRandom(3);
    const items = Object.freeze(["W1", "W2", "W3"]);
    const orders = new Set<string>();
    for (let draw = 0; draw < 200; draw += 1) {
      const shuffled = random.shuffle(items);
      expect(shuffled.toSorted()).toEqual(items);
      orders.add(shuffled.join());
    }
    expect(orders.size).toBe(6);
  });

  test("pick() gives items of the list, also an item that is undefined", () => {
    const random = seededRandom(4);
    const picked = new Set(Array.from({ length: 100 }, () => random.pick(["a", undefined])));
    expect(picked).toEqual(new Set(["a", undefined]));
  });

  test.each<[string, () => unknown, RegExp]>([
    ["an empty list", () => seededRandom(1).pick([]), /range 0 to -1 must hold/],
    ["an empty range", () => seededRandom(1).integer(2, 1), /range 2 to 1 must hold/],
    ["a range with fractions", () => seededRandom(1).integer(0.5, 1), /range 0.5 to 1 must hold/],
    ["a range above one word", () => seededRandom(1).integer(0, 2 ** 32), /must hold 1 to 2\^32/],
    ["a seed with a fraction", () => seededRandom(0.5), /seed 0.5: it must be a whole number/],
    ["a state of zeros", () => seededRandom([0, 0, 0, 0]), /must not be all zero/],
  ])("refuses %s", (_label, act, message) => {
    expect(act).toThrow(RangeError);
    expect(act).toThrow(message);
  });
});
