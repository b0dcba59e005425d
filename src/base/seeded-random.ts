/** A stream of numbers that looks random and is the same for the same seed, on every machine. */
export interface SeededRandom {
  /** The next number, at least 0 and below 1, in steps of 2^-32. */
  next(): number;
  /** The next whole number from `min` to `max`, both included, each equally likely. */
  integer(min: number, max: number): number;
  /** One item of a list that is not empty, each equally likely. */
  pick<Item>(items: readonly Item[]): Item;
  /** A new list with the same items in a random order, every order equally likely. The given list is left alone. */
  shuffle<Item>(items: readonly Item[]): Item[];
}

/** Four words of 32 bits, not all zero. */
export type RandomState = readonly [number, number, number, number];

/**
 * Starts a stream of random numbers. The object that comes back is the one thing in the core that changes as it is used;
 * whoever makes it owns it and hands it on as an argument.
 *
 * Not for secrets: the stream can be computed from a few of its numbers.
 *
 * Source: xoshiro128** 1.1 by D. Blackman and S. Vigna, put in the public domain, "Scrambled linear pseudorandom number
 * generators", ACM Transactions on Mathematical Software 47 (2021). The seed is spread over the state by steps of
 * 0x9e3779b9 and the 32-bit finaliser of MurmurHash3 (A. Appleby, public domain).
 *
 * @param seed a whole number, of which the lowest 32 bits count; or a full state to go on from
 * @returns the stream, at its start
 * @throws RangeError when the seed is not a whole number, a state is all zero, a range is empty or a list is empty
 *
 * @example
 * ```ts
 * import { seededRandom } from "ohmward/base";
 *
 * const first = seededRandom(45);
 * const second = seededRandom(45);
 * expect(first.shuffle(["W1", "W2", "W3"])).toEqual(second.shuffle(["W1", "W2", "W3"]));
 * expect(first.integer(1, 6)).toBe(second.integer(1, 6));
 * ```
 */
export function seededRandom(seed: number | RandomState): SeededRandom {
  const nextWord = wordStream(typeof seed === "number" ? spreadSeed(seed) : seed);

  function integer(min: number, max: number): number {
    const count = max - min + 1;
    if (!Number.isSafeInteger(min) || !Number.isSafeInteger(max) || count < 1 || count > 2 ** 32) {
      throw new RangeError(`Cannot draw an integer: range ${min} to ${max} must hold 1 to 2^32 whole numbers`);
    }
    // Words above the last full multiple of the count are drawn again, or low numbers would come up too often.
    const limit = 2 ** 32 - (2 ** 32 % count);
    let word = nextWord();
    while (word >= limit) word = nextWord();
    return min + (word % count);
  }

  return {
    next: () => nextWord() / 2 ** 32,
    integer,
    pick: (items) => itemAt(items, integer(0, items.length - 1)),
    shuffle: (items) => {
      // Fisher and Yates, in the form of Durstenfeld (1964).
      const result = [...items];
      for (let last = result.length - 1; last > 0; last -= 1) {
        const other = integer(0, last);
        const held = itemAt(result, last);
        result[last] = itemAt(result, other);
        result[other] = held;
      }
      return result;
    },
  };
}

function wordStream(state: RandomState): () => number {
  let [a, b, c, d] = state;
  if ((a | b | c | d) === 0) throw new RangeError("Cannot start a random stream: the state must not be all zero");
  return () => {
    const word = Math.imul(rotateLeft(Math.imul(b, 5), 7), 9) >>> 0;
    const shifted = b << 9;
    c ^= a;
    d ^= b;
    b ^= c;
    a ^= d;
    c ^= shifted;
    d = rotateLeft(d, 11);
    return word;
  };
}

function rotateLeft(word: number, bits: number): number {
  return (word << bits) | (word >>> (32 - bits));
}

function spreadSeed(seed: number): RandomState {
  if (!Number.isSafeInteger(seed)) throw new RangeError(`Cannot use seed ${seed}: it must be a whole number`);
  const step = 0x9e3779b9;
  const word = (index: number): number => finalise((seed + index * step) | 0);
  return [word(1), word(2), word(3), word(4)];
}

function finalise(word: number): number {
  let mixed = word;
  mixed = Math.imul(mixed ^ (mixed >>> 16), 0x85ebca6b);
  mixed = Math.imul(mixed ^ (mixed >>> 13), 0xc2b2ae35);
  return (mixed ^ (mixed >>> 16)) >>> 0;
}

function itemAt<Item>(items: readonly Item[], index: number): Item {
  if (index < 0 || index >= items.length) throw new RangeError(`Cannot take item ${index} of ${items.length}`);
  // The bounds are checked above; an item that is itself `undefined` is a legal item.
  return items[index] as Item;
}
