import { editDistance, naturalOrder } from "../base/index.ts";
import type { Harness } from "../model/index.ts";
import { searchEntries, searchWords, type SearchEntry } from "./search-entries.ts";
import type { Item } from "./item.ts";

/** A thing found, with what it reads as. `isWhole` says that the words are exactly its id or its label. */
export interface Hit {
  readonly item: Item;
  readonly label: string;
  /** 0 is best; grows with every prefix, part and typing slip. */
  readonly distance: number;
  readonly isWhole: boolean;
}

/** How to search. */
export interface FindOptions {
  readonly limit?: number;
}

interface SearchIndex {
  readonly entries: readonly SearchEntry[];
  /** Entries by word, as positions in `entries`. */
  readonly byWord: ReadonlyMap<string, readonly number[]>;
}

// Worked out once a harness; a harness never changes.
const indexes = new WeakMap<Harness, SearchIndex>();

function searchIndex(harness: Harness): SearchIndex {
  const known = indexes.get(harness);
  if (known) return known;
  const entries = searchEntries(harness);
  const byWord = new Map<string, number[]>();
  entries.forEach((entry, position) => {
    for (const word of entry.words) {
      const list = byWord.get(word);
      if (list) list.push(position);
      else byWord.set(word, [position]);
    }
  });
  const index = { entries, byWord };
  indexes.set(harness, index);
  return index;
}

/** What a match costs; our own weights. */
const COST = { exact: 0, prefix: 1, part: 3, slip: 4 };

/**
 * Searches a harness by address, label, colour and size, code, net or kind, in any word order. Every word must match; a word matches
 * exactly, by its beginning, by a part of it, or with a typing slip (one from four letters on, two from eight).
 *
 * @param harness The harness.
 * @param text What was typed, such as `rail sensor`, `0,5 wh/rd` or `pin 36 A1.X1`.
 * @param options How many hits at most; 20 if not said.
 * @returns Hits, best first, equal ones in natural order of their ids; none for an empty text.
 */
export function find(harness: Harness, text: string, options: FindOptions = {}): readonly Hit[] {
  const words = searchWords(text.slice(0, 200)).slice(0, 12);
  if (words.length === 0) return [];
  const { entries, byWord } = searchIndex(harness);
  let distances: Map<number, number> | undefined;
  for (const word of words) {
    const found = matches(byWord, word);
    const both = new Map<number, number>();
    for (const [position, cost] of found) {
      const before = distances === undefined ? 0 : distances.get(position);
      if (before !== undefined) both.set(position, before + cost);
    }
    distances = both;
  }
  const whole = text.trim().toLowerCase();
  const hits = [...(distances ?? [])].flatMap(([position, distance]) => {
    const entry = entries[position];
    if (!entry) return [];
    const isWhole = [entry.item.id, entry.label].some((name) => name.toLowerCase() === whole);
    return [{ item: entry.item, label: entry.label, distance, isWhole }];
  });
  hits.sort(
    (a, b) => Number(b.isWhole) - Number(a.isWhole) || a.distance - b.distance || naturalOrder(a.item.id, b.item.id),
  );
  return hits.slice(0, options.limit ?? 20);
}

function matches(byWord: SearchIndex["byWord"], word: string): ReadonlyMap<number, number> {
  const found = new Map<number, number>();
  const slips = word.length >= 8 ? 2 : word.length >= 4 ? 1 : 0;
  for (const [known, positions] of byWord) {
    const cost = wordCost(known, word, slips);
    if (cost === undefined) continue;
    for (const position of positions) found.set(position, Math.min(cost, found.get(position) ?? cost));
  }
  return found;
}

function wordCost(known: string, word: string, slips: number): number | undefined {
  if (known === word) return COST.exact;
  if (known.startsWith(word)) return COST.prefix;
  if (word.length >= 3 && known.includes(word)) return COST.part;
  if (slips === 0 || Math.abs(known.length - word.length) > slips) return undefined;
  const distance = editDistance(known, word, slips);
  return distance <= slips ? COST.slip * distance : undefined;
}
