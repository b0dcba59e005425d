import type { ItemList, Pairing } from "./item-list.ts";

/** Pairs of numbers of items, before and after. */
export type Pairs = readonly (readonly [before: number, after: number])[];

/**
 * Finds items without a partner that no other item of their document equals: in all that is told of them, and in what they name and are named
 * by, `depth` steps far. Items that have partners are told apart by that already, the others by what is known of them. Two that have
 * one signature are partners.
 *
 * Source: colour refinement (Weisfeiler and Leman 1968), from memory, with labels spread from pairs that are known.
 *
 * @param lists The items of both documents.
 * @param pairing The partners known so far.
 * @param depth How many steps far.
 */
export function uniquePairs(lists: readonly [ItemList, ItemList], pairing: Pairing, depth: number): Pairs {
  const [left, right] = signaturesOf(lists, pairing, depth).map(onlyOnes);
  const pairs: (readonly [number, number])[] = [];
  for (const [signature, at] of left ?? []) {
    const other = right?.get(signature);
    if (at >= 0 && other !== undefined && other >= 0) pairs.push([at, other]);
  }
  return pairs;
}

/**
 * The signatures of all items without a partner, by number; 0 for the others. Of two items that could stand for one another in every way
 * they are the same at any depth.
 */
export function signaturesOf(
  [before, after]: readonly [ItemList, ItemList],
  { toAfter, toBefore }: Pairing,
  depth: number,
): readonly [Float64Array, Float64Array] {
  return [
    signatures(before, (at) => ((toAfter[at] ?? -1) < 0 ? -1 : at), depth),
    signatures(after, (at) => toBefore[at] ?? -1, depth),
  ];
}

/** Items by signature; -1 where several have it. */
function onlyOnes(signed: Float64Array): ReadonlyMap<number, number> {
  const found = new Map<number, number>();
  signed.forEach((signature, at) => {
    if (signature !== 0) found.set(signature, found.has(signature) ? -1 : at);
  });
  return found;
}

/** `known` is the number of the pair an item is in, -1 without one. */
function signatures(list: ItemList, known: (at: number) => number, depth: number): Float64Array {
  // Two lanes of 32 bits: with one, two of 100,000 different items would meet by chance.
  let first = new Int32Array(list.items.length);
  let second = new Int32Array(list.items.length);
  const open: number[] = [];
  for (let at = 0; at < list.items.length; at++) {
    const pair = known(at);
    if (pair < 0 && (depth > 0 || hasName(list, at))) open.push(at);
    const start = pair >= 0 ? -pair - 1 : list.own(at);
    first[at] = mix(start, 0x9e3779b1);
    second[at] = mix(start, 0x85ebca6b);
  }
  for (let step = 0; step < depth; step++) {
    const [fromFirst, fromSecond] = [first, second];
    const [nextFirst, nextSecond] = [first.slice(), second.slice()];
    for (const at of open) {
      let sumFirst = mix(fromFirst[at] ?? 0, 1);
      let sumSecond = mix(fromSecond[at] ?? 0, 2);
      list.eachReference(at, (field, target, side, note) => {
        const word = field + Math.imul(note, 31);
        const beside = side < 0 ? 0 : Math.imul(fromFirst[side] ?? 0, 7);
        sumFirst = (sumFirst + mix((fromFirst[target] ?? 0) ^ beside, word)) | 0;
        sumSecond = (sumSecond + mix((fromSecond[target] ?? 0) ^ beside, word)) | 0;
      });
      list.eachNaming(at, (field, from) => {
        sumFirst = (sumFirst + mix(fromFirst[from] ?? 0, -field)) | 0;
        sumSecond = (sumSecond + mix(fromSecond[from] ?? 0, -field)) | 0;
      });
      nextFirst[at] = sumFirst;
      nextSecond[at] = sumSecond;
    }
    [first, second] = [nextFirst, nextSecond];
  }
  const signed = new Float64Array(list.items.length);
  for (const at of open) signed[at] = ((first[at] ?? 0) >>> 0) * 0x200000 + ((second[at] ?? 0) >>> 11);
  return signed;
}

/** Only what has a name is told apart without its surroundings. */
function hasName(list: ItemList, at: number): boolean {
  const values = list.values(at);
  return values.has("label") || values.has("text") || values.has("part.number");
}

function mix(value: number, by: number): number {
  let mixed = Math.imul(value ^ Math.imul(by, 0x27d4eb2f), 0x85ebca6b);
  mixed = Math.imul(mixed ^ (mixed >>> 13), 0xc2b2ae35);
  return mixed ^ (mixed >>> 16);
}
