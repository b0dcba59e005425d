import { addTo } from "../base/index.ts";
import type { ItemKind, ItemList, Pairing } from "./item-list.ts";
import { signaturesOf, uniquePairs, type Pairs } from "./signatures.ts";
import { isUnchanged, similarity } from "./similarity.ts";

/** How two items were found to be the same one: by their id, by a place in the wiring that no other has, as the most alike. */
export type MatchedBy = "id" | "structure" | "likeness";

/** Which item is which, and how that was found. */
export interface ItemMatch extends Pairing {
  /** By number of the item before. */
  readonly by: ReadonlyMap<number, MatchedBy>;
  /** Items that would do as well, of the same document, by number. */
  readonly equalBefore: ReadonlyMap<number, ReadonlySet<number>>;
  readonly equalAfter: ReadonlyMap<number, ReadonlySet<number>>;
}

/** Least likeness of two items with one id, and of two with different ids. Own judgement, tried on generated machines. */
const LEAST_WITH_ID = 0.35;
const LEAST_ALIKE = 0.6;
/** What is this much alike is settled before what is less: it may settle what the others name. */
const SURELY_ALIKE: readonly number[] = [0.9, 0.8, 0.7, LEAST_ALIKE];
/** Scores nearer than this are equal. */
const EQUAL = 1e-9;
/** Steps into the wiring that signatures look, in the order they are tried. */
const DEPTHS: readonly number[] = [2, 4, 1, 0];
/** Depth at which equally good pairs are told apart. */
const DEEP = 8;
/** Largest number of equally good pairs of which one is taken, and what follows from it first; of more, one of each group. */
const MOST_SINGLE = 60;
/** Most items that are weighed, round after round: two machines that have nothing to do with one another end in an answer too. */
const MOST_WEIGHED = 600_000;
/** An item that more others name says too little of each of them. */
const MOST_NEIGHBOURS = 64;
/** Largest number of pairs of one kind that are all weighed where nothing near is known. */
const MOST_PAIRS = 10_000;
/** Sorts whose id is what people know them by: it counts whatever else differs. */
const KNOWN_BY_ID: ReadonlySet<ItemKind> = new Set([
  "machine",
  "option",
  "build",
  "zone",
  "net",
  "internal-node",
  "side",
  "cavity",
  "state",
]);

/**
 * Finds which item of one document is which of the other. Ids count first, where what they name agrees enough; then a place in the wiring
 * that no other item has; then the most alike among those whose neighbours are known. Where several are equally good the first is taken, and
 * the others are told.
 *
 * @param before Items of the document before.
 * @param after Items of the document after.
 */
export function matchItems(before: ItemList, after: ItemList): ItemMatch {
  const matcher = new Matcher([before, after]);
  matcher.matchIds();
  let weighed = 0;
  do {
    matcher.matchStructure();
    weighed += matcher.open;
  } while (weighed < MOST_WEIGHED && matcher.matchAlike());
  return matcher;
}

interface Weighed {
  readonly a: number;
  readonly b: number;
  readonly score: number;
}

class Matcher implements ItemMatch {
  readonly toAfter: Int32Array;
  readonly toBefore: Int32Array;
  readonly by = new Map<number, MatchedBy>();
  readonly equalBefore = new Map<number, Set<number>>();
  readonly equalAfter = new Map<number, Set<number>>();
  readonly #lists: readonly [ItemList, ItemList];

  constructor(lists: readonly [ItemList, ItemList]) {
    this.#lists = lists;
    this.toAfter = new Int32Array(lists[0].items.length).fill(-1);
    this.toBefore = new Int32Array(lists[1].items.length).fill(-1);
  }

  /** How many items before have no partner. */
  get open(): number {
    return this.toAfter.reduce((count, partner) => count + Number(partner < 0), 0);
  }

  matchIds(): void {
    const [{ items }, right] = this.#lists;
    const { items: others } = right;
    items.forEach(({ kind, id }, a) => {
      const b = right.find(kind, id);
      if (b !== undefined) this.#take([[a, b]], "id");
    });
    // A wrong pair makes its neighbours look wrong: the worst go first, the rest are looked at again.
    const all = [...items.keys()];
    let looked: readonly number[] = all;
    for (const least of [LEAST_WITH_ID / 2, LEAST_WITH_ID]) {
      const known = this.by.size;
      const doubtful: number[] = [];
      for (const a of looked) {
        const b = this.toAfter[a] ?? -1;
        const [item, other] = [items[a], others[b]];
        if (!item || !other) continue;
        const isOrphan = item.owner >= 0 && this.toAfter[item.owner] !== other.owner;
        if (!isOrphan && (KNOWN_BY_ID.has(item.kind) || isUnchanged(this.#lists, this, [a, b]))) continue;
        doubtful.push(a);
        if (isOrphan || similarity(this.#lists, this, [a, b]) < least) this.#untake(a, b);
      }
      looked = this.by.size === known ? doubtful : all;
    }
  }

  matchStructure(): void {
    let isNew = true;
    while (isNew) {
      isNew = this.#matchPieces();
      for (const depth of DEPTHS) {
        if (!this.#hasOpen()) return;
        const pairs = uniquePairs(this.#lists, this, depth).filter((pair) => this.#fitsOwner(pair));
        isNew = this.#take(pairs, "structure") || isNew;
        if (isNew) break;
      }
    }
  }

  /** Takes the pairs that are most alike; whether there were any. */
  matchAlike(): boolean {
    const near: Weighed[] = [];
    const far: number[] = [];
    this.toAfter.forEach((partner, a) => {
      if (partner >= 0) return;
      const beside = this.#nearOf(a);
      if (beside.size === 0) far.push(a);
      for (const b of beside) this.#weighPair(near, a, b);
    });
    const [strict, equal] = settle(near);
    const isTaken = SURELY_ALIKE.some((least) => this.#takeAlike(strict.filter(({ score }) => score >= least)));
    if (isTaken || this.#takeEqual(equal)) return true;
    const [strictFar, equalFar] = settle(this.#weighFar(far));
    return this.#takeAlike(strictFar) || this.#takeEqual(equalFar);
  }

  #hasOpen(): boolean {
    return this.toAfter.includes(-1) && this.toBefore.includes(-1);
  }

  #take(pairs: Pairs, by: MatchedBy): boolean {
    let isNew = false;
    for (const [a, b] of pairs) {
      if ((this.toAfter[a] ?? 0) >= 0 || (this.toBefore[b] ?? 0) >= 0) continue;
      this.toAfter[a] = b;
      this.toBefore[b] = a;
      this.by.set(a, by);
      isNew = true;
    }
    return isNew;
  }

  #untake(a: number, b: number): void {
    this.toAfter[a] = -1;
    this.toBefore[b] = -1;
    this.by.delete(a);
  }

  /** A piece of an item belongs to a piece of its partner. */
  #fitsOwner([a, b]: readonly [number, number]): boolean {
    const [left, right] = [this.#lists[0].items[a], this.#lists[1].items[b]];
    if (!left || !right || left.kind !== right.kind || left.owner < 0 !== right.owner < 0) return false;
    const partner = left.owner < 0 ? -1 : (this.toAfter[left.owner] ?? -1);
    const back = right.owner < 0 ? -1 : (this.toBefore[right.owner] ?? -1);
    return left.owner < 0 || (partner < 0 ? back < 0 : partner === right.owner);
  }

  /** The pieces of items that are partners, by their id inside the item. */
  #matchPieces(): boolean {
    const [left, right] = this.#lists;
    const pairs: (readonly [number, number])[] = [];
    left.items.forEach(({ kind, local, owner }, a) => {
      if (owner < 0 || (this.toAfter[a] ?? 0) >= 0) return;
      const partner = right.items[this.toAfter[owner] ?? -1];
      if (!partner) return;
      const sign = kind === "cavity" ? ":" : kind === "internal-node" ? "#" : ".";
      const b = right.find(kind, `${partner.id}${sign}${local}`);
      if (b === undefined || (this.toBefore[b] ?? 0) >= 0) return;
      if (KNOWN_BY_ID.has(kind) || similarity(this.#lists, this, [a, b]) >= LEAST_WITH_ID) pairs.push([a, b]);
    });
    return this.#take(pairs, "id");
  }

  /** Pairs of items of which no neighbour has a partner. */
  #weighFar(far: readonly number[]): readonly Weighed[] {
    const [{ items }, { items: others }] = this.#lists;
    const weighed: Weighed[] = [];
    const byKind = new Map<ItemKind | undefined, number[]>();
    for (const a of far) addTo(byKind, items[a]?.kind, a);
    for (const [kind, own] of byKind) {
      const open = others.flatMap((item, b) => (item.kind === kind && this.toBefore[b] === -1 ? [b] : []));
      if (own.length * open.length > MOST_PAIRS) continue;
      for (const a of own) for (const b of open) this.#weighPair(weighed, a, b);
    }
    return weighed;
  }

  #takeAlike(weighed: readonly Weighed[]): boolean {
    const pairs = weighed.map(({ a, b }) => [a, b] as const);
    return this.#take(pairs, "likeness");
  }

  #weighPair(weighed: Weighed[], a: number, b: number): void {
    if (!this.#fitsOwner([a, b])) return;
    const score = similarity(this.#lists, this, [a, b]);
    if (score >= LEAST_ALIKE) weighed.push({ a, b, score });
  }

  /** Items without a partner that stand to partners of the neighbours of an item as it stands to those. */
  #nearOf(a: number): ReadonlySet<number> {
    const [left, right] = this.#lists;
    const item = left.items[a];
    const near = new Set<number>();
    if (!item) return near;
    const add = (numbers: readonly number[] | undefined): void => {
      if (!numbers || numbers.length > MOST_NEIGHBOURS) return;
      for (const b of numbers) if (this.toBefore[b] === -1 && right.items[b]?.kind === item.kind) near.add(b);
    };
    for (const [field, list] of left.references(a))
      for (const { target } of list.slice(0, MOST_NEIGHBOURS)) {
        const partner = this.toAfter[target] ?? -1;
        if (partner >= 0) add(right.namedBy(partner).get(field));
      }
    for (const [field, list] of left.namedBy(a))
      for (const from of list.slice(0, MOST_NEIGHBOURS)) {
        const partner = this.toAfter[from] ?? -1;
        if (partner >= 0)
          add(
            right
              .references(partner)
              .get(field)
              ?.map(({ target }) => target),
          );
      }
    return near;
  }

  /** Takes one of the pairs that are equally good, the first in the order of the documents; so of each group where there are many. */
  #takeEqual(equal: readonly Weighed[]): boolean {
    if (equal.length === 0) return false;
    const touched = [new Set<number>(), new Set<number>()] as const;
    const taken: (readonly [number, number])[] = [];
    const [left, right] = signaturesOf(this.#lists, this, DEEP);
    const alike = equal.filter(({ a, b }) => left[a] === right[b]);
    const mutual = alike.length > 0 ? alike : equal;
    const [ofBefore, ofAfter] = [new Map<number, number[]>(), new Map<number, number[]>()];
    for (const { a, b } of mutual) {
      addTo(ofBefore, a, b);
      addTo(ofAfter, b, a);
    }
    for (const { a, b } of mutual) {
      const equalA = ofAfter.get(b) ?? [];
      const equalB = ofBefore.get(a) ?? [];
      const isFree =
        ![a, ...equalA].some((at) => touched[0].has(at)) && ![b, ...equalB].some((at) => touched[1].has(at));
      for (const at of equalA) touched[0].add(at);
      for (const at of equalB) touched[1].add(at);
      if (!isFree) continue;
      taken.push([a, b]);
      noteEqual(this.equalBefore, equalA);
      noteEqual(this.equalAfter, equalB);
      if (equal.length <= MOST_SINGLE) break;
    }
    return this.#take(taken, "likeness");
  }
}

function noteEqual(equal: Map<number, Set<number>>, numbers: readonly number[]): void {
  if (numbers.length < 2) return;
  for (const at of numbers) {
    const known = equal.get(at) ?? new Set<number>();
    for (const other of numbers) if (other !== at) known.add(other);
    equal.set(at, known);
  }
}

/** The pairs that are best for both, those of which both have one only first; then those that share one with another. */
function settle(weighed: readonly Weighed[]): readonly [strict: readonly Weighed[], equal: readonly Weighed[]] {
  const best = [bestOf(weighed, "a"), bestOf(weighed, "b")] as const;
  const mutual = weighed.filter(
    ({ a, b, score }) => score >= (best[0].get(a)?.score ?? 0) - EQUAL && score >= (best[1].get(b)?.score ?? 0) - EQUAL,
  );
  return [mutual.filter(({ a, b }) => best[0].get(a)?.count === 1 && best[1].get(b)?.count === 1), mutual];
}

/** The best score of each item, and how many pairs have it. */
function bestOf(
  weighed: readonly Weighed[],
  end: "a" | "b",
): ReadonlyMap<number, { readonly score: number; readonly count: number }> {
  const best = new Map<number, { score: number; count: number }>();
  for (const pair of weighed) {
    const known = best.get(pair[end]);
    if (!known || pair.score > known.score + EQUAL) best.set(pair[end], { score: pair.score, count: 1 });
    else if (pair.score > known.score - EQUAL) known.count++;
  }
  return best;
}
