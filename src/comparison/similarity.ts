import { addTo } from "../base/index.ts";
import {
  isToldSame,
  type FieldValue,
  type ItemKind,
  type ItemList,
  type Pairing,
  type Reference,
} from "./item-list.ts";

/** How much a field says of what an item is. Own judgement, tried on generated machines. */
const WEIGHTS: ReadonlyMap<string, number> = new Map([
  ["ends", 6],
  ["between", 4],
  ["tap", 2],
  ["label", 3],
  ["text", 3],
  ["part.number", 3],
  ["owner", 3],
  ["points", 3],
  ["kind", 2],
  ["role", 2],
  ["colour", 2],
  ["net", 2],
  ["component", 2],
  ["when", 0.5],
  ["note", 0.2],
  ["x", 0.5],
  ["y", 0.5],
  // A cavity is a place in a housing, whatever is put into it.
  ["cavity x", 4],
  ["cavity y", 4],
  ["cavity ends", 1],
  ["cavity between", 1],
]);
/** Half a grid step is another cavity. */
const PLACES: ReadonlySet<string> = new Set(["x", "y"]);
/** Part of the weight of a field that counts against two items as long as nothing is known of what it names. */
const NOT_KNOWN = 0.3;
/** A field that differs and makes two items different things. */
const TELLING: ReadonlyMap<ItemKind, string> = new Map([["element", "kind"]]);

/**
 * How alike two items are, from 0 to 1: values, what they name and who names them, as far as the partners of those are known.
 *
 * @param lists The items of both documents.
 * @param pairing The partners known so far.
 * @param numbers Numbers of the two items.
 */
export function similarity(
  lists: readonly [ItemList, ItemList],
  pairing: Pairing,
  [before, after]: readonly [before: number, after: number],
): number {
  const [left, right] = lists;
  const kind = left.items[before]?.kind;
  if (kind === undefined || kind !== right.items[after]?.kind) return 0;
  const [a, b] = [left.values(before), right.values(after)];
  const telling = TELLING.get(kind);
  if (telling !== undefined && a.get(telling) !== b.get(telling)) return 0;
  let [all, alike] = [0, 0];
  const add = (field: string, share: number | undefined): void => {
    const weight = (WEIGHTS.get(`${kind} ${field}`) ?? WEIGHTS.get(field) ?? 1) * (share === undefined ? NOT_KNOWN : 1);
    all += weight;
    alike += weight * (share ?? 0);
  };
  for (const field of fieldsOf(a, b)) {
    const [one, two] = [a.get(field), b.get(field)];
    add(field, PLACES.has(field) ? Number(one === two) : valueShare(one, two));
  }
  const [names, others] = [left.references(before), right.references(after)];
  for (const field of fieldsOf(names, others))
    add(field, referenceShare(lists, pairing, [names.get(field) ?? [], others.get(field) ?? []]));
  const [namedBy, otherNamedBy] = [left.namedBy(before), right.namedBy(after)];
  for (const field of fieldsOf(namedBy, otherNamedBy))
    add(field, namedShare(pairing, namedBy.get(field) ?? [], otherNamedBy.get(field) ?? []));
  return all === 0 ? 0 : alike / all;
}

/** The fields of two items, each once. */
export function fieldsOf(before: ReadonlyMap<string, unknown>, after: ReadonlyMap<string, unknown>): readonly string[] {
  const fields = [...before.keys()];
  for (const field of after.keys()) if (!before.has(field)) fields.push(field);
  return fields;
}

/**
 * Whether two references name partners, with the same said beside them.
 *
 * @param pairing The partners.
 * @param a A reference of the document before.
 * @param b A reference of the document after.
 */
export function isSameReference({ toAfter }: Pairing, a: Reference, b: Reference): boolean {
  if (toAfter[a.target] !== b.target || a.note !== b.note) return false;
  return a.side < 0 || b.side < 0 ? a.side === b.side : toAfter[a.side] === b.side;
}

/**
 * Takes the references that both have out of two lists.
 *
 * @param pairing The partners.
 * @param before References of the item before.
 * @param after References of its partner.
 * @returns What is left of each.
 */
export function unlikeReferences(
  pairing: Pairing,
  before: readonly Reference[],
  after: readonly Reference[],
): readonly [before: readonly Reference[], after: readonly Reference[]] {
  // Nearly always the same in the same order.
  if (before.length === after.length && before.every((each, at) => isSame(pairing, each, after[at]))) return [[], []];
  const byTarget = new Map<number, Reference[]>();
  for (const each of after) addTo(byTarget, each.target, each);
  const left = before.filter((each) => {
    const there = byTarget.get(pairing.toAfter[each.target] ?? -1);
    const at = there?.findIndex((other) => isSameReference(pairing, each, other)) ?? -1;
    if (at >= 0) there?.splice(at, 1);
    return at < 0;
  });
  return [left, [...byTarget.values()].flat()];
}

function isSame(pairing: Pairing, a: Reference, b: Reference | undefined): boolean {
  return b !== undefined && isSameReference(pairing, a, b);
}

function valueShare(a: FieldValue | undefined, b: FieldValue | undefined): number {
  if (a === b) return 1;
  if (typeof a === "number" && typeof b === "number") {
    const largest = Math.max(Math.abs(a), Math.abs(b));
    return 0.8 * Math.max(0, 1 - (2 * Math.abs(a - b)) / largest);
  }
  if (typeof a !== "string" || typeof b !== "string") return 0;
  const [words, others] = [wordsOf(a), wordsOf(b)];
  if (words.size + others.size <= 2) return 0;
  const both = [...words].filter((word) => others.has(word)).length;
  return (1.6 * both) / (words.size + others.size);
}

function wordsOf(text: string): ReadonlySet<string> {
  return new Set(text.toLowerCase().match(/[\p{L}\p{N}]+/gu));
}

/** Of the references whose partners are known on one side at least, how many are the same; two cavities of one connector count half. */
function referenceShare(
  [left, right]: readonly [ItemList, ItemList],
  pairing: Pairing,
  [before, after]: readonly [readonly Reference[], readonly Reference[]],
): number | undefined {
  const { toAfter, toBefore } = pairing;
  const known = [
    before.filter(({ target }) => (toAfter[target] ?? -1) >= 0),
    after.filter(({ target }) => (toBefore[target] ?? -1) >= 0),
  ] as const;
  const count = known[0].length + known[1].length;
  if (count === 0) return undefined;
  const [unlikeBefore, unlikeAfter] = unlikeReferences(pairing, ...known);
  const same = known[0].length - unlikeBefore.length;
  const owners = unlikeBefore.map(({ target }) => toAfter[left.items[target]?.owner ?? -1] ?? -1);
  const near = unlikeAfter.filter(({ target }) => {
    const owner = right.items[target]?.owner ?? -1;
    const at = owner < 0 ? -1 : owners.indexOf(owner);
    if (at >= 0) owners.splice(at, 1);
    return at >= 0;
  }).length;
  return (2 * same + near) / count;
}

function namedShare(
  { toAfter, toBefore }: Pairing,
  before: readonly number[],
  after: readonly number[],
): number | undefined {
  const partners = new Set<number>();
  let count = 0;
  for (const at of before) {
    const partner = toAfter[at] ?? -1;
    if (partner < 0) continue;
    count++;
    partners.add(partner);
  }
  let same = 0;
  for (const at of after) {
    if ((toBefore[at] ?? -1) < 0) continue;
    count++;
    if (partners.has(at)) same++;
  }
  return count === 0 ? undefined : (2 * same) / count;
}

/** Whether all that is told of two items, and all they name, is the same, given the partners. */
export function isUnchanged(
  [left, right]: readonly [ItemList, ItemList],
  { toAfter }: Pairing,
  [before, after]: readonly [before: number, after: number],
): boolean {
  const [a, b] = [left.items[before], right.items[after]];
  return a !== undefined && b !== undefined && isToldSame(a, b) && left.isNamingSame(before, right, after, toAfter);
}
