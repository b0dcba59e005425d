import type { ComparedItem, FieldValue, ItemKind, ItemList, Reference } from "./item-list.ts";
import { matchItems, type ItemMatch, type MatchedBy } from "./match-items.ts";
import { Numbering } from "./numbering.ts";
import { readItems, type ComparedMachine } from "./read-items.ts";
import { fieldsOf, isUnchanged, similarity, unlikeReferences } from "./similarity.ts";

/** What happened to an item. `moved`: it lies or ends elsewhere; `renumbered`: a cavity has another number. */
export type ChangeSort = "added" | "removed" | "moved" | "renamed" | "renumbered" | "changed";

/** One field that differs; where it names several items, those that differ. */
export interface FieldChange {
  readonly field: string;
  readonly before?: FieldValue;
  readonly after?: FieldValue;
}

/** One difference between two documents. */
export interface HarnessChange {
  readonly item: ItemKind;
  readonly what: ChangeSort;
  /** Id in the document before; absent where it is added. */
  readonly before?: string;
  /** Id in the document after; absent where it is removed. */
  readonly after?: string;
  /** What differs; of an item that is added or removed, what is told of it. */
  readonly fields: readonly FieldChange[];
  /** Connectors it concerns, by their ids after; before, where they are removed. */
  readonly connectors: readonly string[];
  /** Parts it concerns, likewise. */
  readonly parts: readonly string[];
  /** How the two were found to be the same item, and how much of them agrees, from 0 to 1. */
  readonly match?: { readonly by: MatchedBy; readonly agreement: number };
  /** Items that would do as well as this one: nothing in the data tells them apart. */
  readonly equivalent: { readonly before: readonly string[]; readonly after: readonly string[] };
}

/** All differences of two documents. */
export interface HarnessComparison {
  /** In the order of kinds and of the documents. */
  readonly changes: readonly HarnessChange[];
  /** Id after of an item before; undefined where it has no partner. */
  readonly partnerOf: (kind: ItemKind, before: string) => string | undefined;
  /** How many items have a partner, and how many there are in each document. */
  readonly counts: { readonly matched: number; readonly before: number; readonly after: number };
}

/** Fields that say where an item lies or ends. */
const PLACES: ReadonlySet<string> = new Set([
  "ends",
  "between",
  "tap",
  "at.segment",
  "at.from",
  "at.offsetMm",
  "place",
  "zone",
]);
/** What these name comes and goes with what is named, and is not told again. */
const IMPLIED: ReadonlySet<string> = new Set([
  "settings",
  "fits",
  "on.zones",
  "on.nets",
  "on.components",
  "cavities",
  "fitted",
]);
const NOTHING: readonly string[] = [];
/** By these an item is said to be where others are. */
const NEIGHBOURS: readonly string[] = ["owner", "ends", "between", "points", "component", "module"];

/**
 * Compares two harness documents, or one in two builds: what is added, removed, moved, renamed, renumbered and changed. Ids count where what
 * they name agrees; otherwise items are found by their place in the wiring, so that renaming loses nothing.
 *
 * @param before The document before; a harness for one build of it.
 * @param after The document after, likewise.
 * @returns The differences, in the order of kinds and ids; the same for the same documents.
 * @example
 * ```ts
 * import { compareHarnesses } from "ohmward/comparison";
 * import { openHarness } from "ohmward/harness-model";
 * const lamp = (colour: string) => {
 *   const opened = openHarness(JSON.stringify({
 *     format: "ohmward-harness", version: 3, about: { title: "Lamp", machine: "Lamp" },
 *     system: { nominalVolt: 12, wireStandard: "iec-60228-class-5", temperatureC: 20 },
 *     options: [], builds: [{ id: "base", label: "Base", options: [] }], states: [], zones: [], topologyNodes: [], segments: [],
 *     components: [], connectors: [], splices: [], nets: [], adapters: [], codes: [], cautions: [],
 *     terminalStuds: [{ id: "G1", label: "Post", role: "supply" }, { id: "G2", label: "Frame", role: "ground" }],
 *     wires: [{ id: "W1", ends: ["G1", "G2"], colour }],
 *   }));
 *   if (!opened.ok) throw new Error(opened.error[0]?.message);
 *   return opened.value;
 * };
 * const [change] = compareHarnesses(lamp("RD"), lamp("BK")).changes;
 * expect([change?.after, change?.what, change?.fields]).toEqual(["W1", "changed", [{ field: "colour", before: "RD", after: "BK" }]]);
 * ```
 */
export function compareHarnesses(before: ComparedMachine, after: ComparedMachine): HarnessComparison {
  const numbering = new Numbering();
  const lists = [readItems(before, numbering), readItems(after, numbering)] as const;
  const match = matchItems(...lists);
  return {
    changes: new Comparer(lists, match).changes(),
    partnerOf: (kind, id) => lists[1].items[match.toAfter[lists[0].find(kind, id) ?? -1] ?? -1]?.id,
    counts: { matched: match.by.size, before: lists[0].items.length, after: lists[1].items.length },
  };
}

class Comparer {
  readonly #before: ItemList;
  readonly #after: ItemList;
  readonly #match: ItemMatch;
  readonly #neighbours: ReadonlySet<number>;

  constructor([before, after]: readonly [ItemList, ItemList], match: ItemMatch) {
    this.#before = before;
    this.#after = after;
    this.#match = match;
    this.#neighbours = new Set(NEIGHBOURS.map((field) => before.numbering.of(field)));
  }

  changes(): readonly HarnessChange[] {
    const changes: HarnessChange[] = [];
    const { toAfter, toBefore } = this.#match;
    for (let a = 0; a < toAfter.length; a++) {
      const b = toAfter[a] ?? -1;
      changes.push(...(b < 0 ? this.#alone(a, -1) : this.#differences(a, b)));
    }
    for (let b = 0; b < toBefore.length; b++) if (toBefore[b] === -1) changes.push(...this.#alone(-1, b));
    return changes;
  }

  /** An item without a partner. Pieces of what is gone or new as a whole are not told one by one. */
  #alone(a: number, b: number): readonly HarnessChange[] {
    const [list, at, partner] =
      a >= 0 ? [this.#before, a, this.#match.toAfter] : [this.#after, b, this.#match.toBefore];
    const { kind = "machine", owner = -1, raw } = list.items[at] ?? {};
    if (kind === "internal-node" || (owner >= 0 && partner[owner] === -1)) return [];
    const told = new Map<string, FieldValue>(list.values(at));
    for (const [field, references] of list.references(at))
      if (field !== "owner") told.set(field, written(list, references) ?? "");
    if (raw?.when !== undefined) told.set("when", raw.when);
    const fields = [...told].map(([field, value]) => (a >= 0 ? { field, before: value } : { field, after: value }));
    return [{ ...this.#about(a, b), what: a >= 0 ? "removed" : "added", fields }];
  }

  #differences(a: number, b: number): readonly HarnessChange[] {
    const [item, other] = [this.#before.items[a], this.#after.items[b]];
    if (!item || !other || item.kind === "internal-node") return [];
    const isRenamed = item.owner < 0 ? item.id !== other.id : item.local !== other.local;
    const lists = [this.#before, this.#after] as const;
    const isSame = isUnchanged(lists, this.#match, [a, b]);
    if (isSame && !isRenamed) return [];
    const fields = isSame ? [] : this.#fields(a, b);
    const moved = fields.filter(({ field }) => PLACES.has(field));
    const changed = fields.filter(({ field }) => !PLACES.has(field));
    const named = isRenamed ? [{ field: "id", before: item.local, after: other.local }] : [];
    const found: readonly (readonly [ChangeSort, readonly FieldChange[]])[] = [
      ["moved", moved],
      [item.kind === "cavity" ? "renumbered" : "renamed", named],
      ["changed", changed],
    ];
    const agreement = isSame ? 1 : similarity(lists, this.#match, [a, b]);
    const shared = { ...this.#about(a, b), match: { by: this.#match.by.get(a) ?? "id", agreement } } as const;
    return found.flatMap(([what, told]) => (told.length === 0 ? [] : [{ ...shared, what, fields: told }]));
  }

  #fields(a: number, b: number): readonly FieldChange[] {
    const fields: FieldChange[] = [];
    const tell = (field: string, before: FieldValue | undefined, after: FieldValue | undefined): void => {
      fields.push({ field, ...(before !== undefined && { before }), ...(after !== undefined && { after }) });
    };
    const [values, others] = [this.#before.values(a), this.#after.values(b)];
    for (const field of fieldsOf(values, others)) {
      const [before, after] = [values.get(field), others.get(field)];
      if (field !== "when" && before !== after) tell(field, before, after);
    }
    const [names, otherNames] = [this.#before.references(a), this.#after.references(b)];
    let isOtherWhen = values.get("when") !== others.get("when");
    for (const field of fieldsOf(names, otherNames)) {
      const both = [names.get(field) ?? [], otherNames.get(field) ?? []] as const;
      const [gone, fresh] = unlikeReferences(this.#match, ...both);
      const { toAfter, toBefore } = this.#match;
      const unlike = IMPLIED.has(field)
        ? ([
            gone.filter(({ target }) => toAfter[target] !== -1),
            fresh.filter(({ target }) => toBefore[target] !== -1),
          ] as const)
        : ([gone, fresh] as const);
      const isUnlike = unlike.some((list) => list.length > 0);
      if (field === "when") isOtherWhen ||= isUnlike;
      else if (isUnlike) tell(field, written(this.#before, unlike[0]), written(this.#after, unlike[1]));
      else if (field === "route" && !this.#isSameRoute(...both))
        tell(field, written(this.#before, both[0]), written(this.#after, both[1]));
    }
    if (isOtherWhen) tell("when", this.#before.items[a]?.raw.when, this.#after.items[b]?.raw.when);
    return fields;
  }

  /** A wire may be written from either end. */
  #isSameRoute(route: readonly Reference[], other: readonly Reference[]): boolean {
    const mapped = route.map(({ target }) => this.#match.toAfter[target]);
    return [other, other.toReversed()].some((way) => way.every(({ target }, at) => target === mapped[at]));
  }

  /** What is told of an item before, its partner after, or both. */
  #about(a: number, b: number): Omit<HarnessChange, "what" | "fields" | "match"> {
    const [before, after] = [this.#before, this.#after];
    const [connectors, parts]: [string[], string[]] = [[], []];
    const add = (owner: ComparedItem | undefined): void => {
      const ids = owner?.kind === "connector" ? connectors : owner?.kind === "part" ? parts : undefined;
      if (owner && ids?.includes(owner.id) === false) ids.push(owner.id);
    };
    for (const at of ownersOf(after, b, this.#neighbours)) add(after.items[at]);
    for (const at of ownersOf(before, a, this.#neighbours))
      add(after.items[this.#match.toAfter[at] ?? -1] ?? before.items[at]);
    const ids = (list: ItemList, equal: ReadonlySet<number> | undefined): readonly string[] =>
      equal ? [...equal].map((at) => list.items[at]?.id ?? "") : NOTHING;
    const [item, other] = [before.items[a], after.items[b]];
    const { equalBefore, equalAfter } = this.#match;
    return {
      item: (other ?? item)?.kind ?? "machine",
      ...(item && { before: item.id }),
      ...(other && { after: other.id }),
      connectors,
      parts,
      equivalent: { before: ids(before, equalBefore.get(a)), after: ids(after, equalAfter.get(b)) },
    };
  }
}

/** Numbers of the connectors and parts that an item is, is a piece of, or ends at. */
function ownersOf(list: ItemList, at: number, neighbours: ReadonlySet<number>): readonly number[] {
  if (at < 0) return [];
  const component = list.numbering.of("component");
  const found = [at];
  list.eachReference(at, (field, target) => {
    if (neighbours.has(field)) found.push(target, list.items[target]?.owner ?? -1);
  });
  // A connector stands for the part whose terminals it has.
  const count = found.length;
  for (let next = 0; next < count; next++) {
    const number = found[next] ?? -1;
    if (list.items[number]?.kind !== "connector") continue;
    list.eachReference(number, (field, target) => {
      if (field === component) found.push(target);
    });
  }
  return found;
}

/** References as people read them: `A1.X1:36` for the side that wires come to, the whole address elsewhere. */
function written({ items, numbering }: ItemList, references: readonly Reference[]): string | undefined {
  if (references.length === 0) return undefined;
  const texts = references.map(({ target, side, note }) => {
    const [item, sideItem] = [items[target], items[side]];
    const isUsual = sideItem === undefined || sideItem.local === "harness";
    const shown = isUsual || item === undefined ? (item?.id ?? "") : `${sideItem.id}:${item.local}`;
    const beside = numbering.text(note);
    return beside === "" || /^\d$/u.test(beside) ? shown : `${shown}: ${beside}`;
  });
  return texts.join(", ");
}
