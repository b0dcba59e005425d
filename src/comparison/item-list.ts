import { addTo } from "../base/index.ts";
import type { Numbering } from "./numbering.ts";

/** Sort of an item that is compared. */
export type ItemKind =
  | "machine"
  | "option"
  | "build"
  | "zone"
  | "branch-point"
  | "segment"
  | "net"
  | "part"
  | "element"
  | "internal-node"
  | "connector"
  | "side"
  | "cavity"
  | "splice"
  | "stud"
  | "wire"
  | "state"
  | "adapter"
  | "code"
  | "caution";

/** What a field of an item may hold, once nested fields are written as `part.number`. */
export type FieldValue = string | number | boolean;

/** One item of a document. */
export interface ComparedItem {
  readonly kind: ItemKind;
  /** Id in the document: `A1.X1:36`, `A3.K1-coil`. */
  readonly id: string;
  /** Id inside its owner; the same as `id` where it has none. */
  readonly local: string;
  /** Number of the item it is a piece of, -1 where it stands alone. */
  readonly owner: number;
  /** As it stands in the document. */
  readonly raw: object & { readonly when?: string | undefined };
  /** What is told of it in another form than it is written. */
  told: Map<string, FieldValue> | undefined;
}

/** From an item to another one, by a field such as `ends` or `zone`. */
export interface Reference {
  /** Number of the item that is named, or that names. */
  readonly target: number;
  /** Number of the connector side that is meant, -1 where none is. */
  readonly side: number;
  /** Number of what is said beside it, such as `on` of a setting. */
  readonly note: number;
}

/** What the fields of an item name: items of a kind by id, or points by address. They are read as references, not as values. */
export const NAMES: Readonly<Record<ItemKind, Readonly<Record<string, ItemKind | "point">>>> = {
  machine: { "supply.positive": "point", "supply.negative": "point", "usualAccess.states": "state" },
  option: {},
  build: { options: "option" },
  zone: {},
  "branch-point": {},
  segment: { from: "branch-point", to: "branch-point", zone: "zone" },
  net: { boostedIn: "state" },
  part: { zone: "zone" },
  element: {},
  "internal-node": {},
  connector: { component: "part", zone: "zone", place: "branch-point", "access.states": "state" },
  side: {},
  cavity: {},
  splice: { "at.segment": "segment", "at.from": "branch-point", zone: "zone" },
  stud: { component: "part", place: "branch-point", zone: "zone", "access.states": "state" },
  wire: { ends: "point", net: "net", route: "segment" },
  state: {},
  adapter: { points: "point" },
  code: { module: "part", points: "point" },
  caution: { "on.zones": "zone", "on.nets": "net", "on.components": "part", "on.states": "state" },
};
/** Fields that are read in a way of their own, or not compared. */
const OTHERS: Readonly<Partial<Record<ItemKind, readonly string[]>>> = {
  zone: ["hazards"],
  segment: ["hazards"],
  part: ["elements", "needs.positive", "needs.negative", "needs.wake", "needs.wakeOutputs"],
  element: ["between", "tap", "of", "resistanceByState"],
  connector: ["sides", "cavities", "face.ofSide"],
  side: ["name", "cavities", "fitted"],
  cavity: ["origin"],
  wire: ["origin"],
  state: ["settings", "quantities"],
  adapter: ["fits"],
};
const SKIPPED: ReadonlyMap<string, ReadonlySet<string>> = new Map(
  (Object.keys(NAMES) as ItemKind[]).map((kind) => [
    kind,
    new Set(["id", "when", ...Object.keys(NAMES[kind]), ...(OTHERS[kind] ?? [])]),
  ]),
);
/** Who names an item by these says little of it, and they are many. */
const ONE_WAY: readonly string[] = ["route", "settings", "hazards", "when"];

/** All items of a document, by number, and which names which. References lie in arrays of numbers: a large machine has a million. */
export class ItemList {
  readonly items: ComparedItem[] = [];
  readonly numbering: Numbering;
  readonly #numbers = new Map<ItemKind, Map<string, number>>();
  readonly #references: Record<"from" | "field" | "target" | "side" | "note", number[]> = {
    from: [],
    field: [],
    target: [],
    side: [],
    note: [],
  };
  #out: Sorted | undefined;
  #in: Sorted | undefined;
  #own: Int32Array | undefined;

  constructor(numbering: Numbering) {
    this.numbering = numbering;
  }

  /** The number of an item, by kind and id. */
  find(kind: ItemKind, id: string): number | undefined {
    return this.#numbers.get(kind)?.get(id);
  }

  /** Adds an item; its number is the answer. */
  add(item: ComparedItem): number {
    const number = this.items.push(item) - 1;
    let ofKind = this.#numbers.get(item.kind);
    if (!ofKind) this.#numbers.set(item.kind, (ofKind = new Map<string, number>()));
    ofKind.set(item.id, number);
    if (item.owner >= 0) this.name(number, "owner", item.owner);
    return number;
  }

  /** Notes that an item names another one. */
  name(from: number, field: string, target: number, { side = -1, note = "" } = {}): void {
    const { numbering } = this;
    this.#references.from.push(from);
    this.#references.field.push(numbering.of(field));
    this.#references.target.push(target);
    this.#references.side.push(side);
    this.#references.note.push(numbering.of(note));
  }

  /** Calls with each reference of an item, in the order it was noted. */
  eachReference(at: number, tell: (field: number, target: number, side: number, note: number) => void): void {
    const { field, target, side, note } = this.#references;
    const { start, order } = (this.#out ??= this.#sort("from"));
    for (let next = start[at] ?? 0; next < (start[at + 1] ?? 0); next++) {
      const number = order[next] ?? 0;
      tell(field[number] ?? 0, target[number] ?? -1, side[number] ?? -1, note[number] ?? 0);
    }
  }

  /** Whether an item of another list names the partners of what an item of this one names, in the same order. */
  isNamingSame(at: number, other: ItemList, there: number, partner: Int32Array): boolean {
    const [one, two] = [this.#references, other.#references];
    const [mine, theirs] = [(this.#out ??= this.#sort("from")), (other.#out ??= other.#sort("from"))];
    const [start, otherStart] = [mine.start[at] ?? 0, theirs.start[there] ?? 0];
    const count = (mine.start[at + 1] ?? 0) - start;
    if (count !== (theirs.start[there + 1] ?? 0) - otherStart) return false;
    for (let next = 0; next < count; next++) {
      const [a, b] = [mine.order[start + next] ?? 0, theirs.order[otherStart + next] ?? 0];
      if (one.field[a] !== two.field[b] || one.note[a] !== two.note[b]) return false;
      if (partner[one.target[a] ?? -1] !== two.target[b]) return false;
      if (((one.side[a] ?? -1) < 0 ? -1 : partner[one.side[a] ?? -1]) !== two.side[b]) return false;
    }
    return true;
  }

  /** Calls with each item that names an item. */
  eachNaming(at: number, tell: (field: number, from: number) => void): void {
    const { field, from } = this.#references;
    const { start, order } = (this.#in ??= this.#sort("target"));
    for (let next = start[at] ?? 0; next < (start[at + 1] ?? 0); next++) {
      const number = order[next] ?? 0;
      tell(field[number] ?? 0, from[number] ?? -1);
    }
  }

  /** What an item names, by field. */
  references(at: number): ReadonlyMap<string, readonly Reference[]> {
    const found = new Map<string, Reference[]>();
    this.eachReference(at, (field, target, side, note) => {
      addTo(found, this.numbering.text(field), { target, side, note });
    });
    return found;
  }

  /** Numbers of the items that name an item, by field. */
  namedBy(at: number): ReadonlyMap<string, readonly number[]> {
    const found = new Map<string, number[]>();
    this.eachNaming(at, (field, from) => {
      addTo(found, this.numbering.text(field), from);
    });
    return found;
  }

  /** What is told of an item, by field. */
  values(at: number): ReadonlyMap<string, FieldValue> {
    const item = this.items[at];
    const values = new Map<string, FieldValue>();
    if (!item) return values;
    flatten(item.raw, SKIPPED.get(item.kind), values);
    for (const [field, value] of item.told ?? []) values.set(field, value);
    return values;
  }

  /** A number that items have in common of which the same is told. */
  own(at: number): number {
    this.#own ??= new Int32Array(this.items.length);
    let own = this.#own[at] ?? 0;
    if (own === 0) {
      let text: string = this.items[at]?.kind ?? "";
      for (const [field, value] of this.values(at)) text += `\u0000${field}\u0000${value}`;
      own = this.#own[at] = this.numbering.of(text);
    }
    return own;
  }

  #sort(by: "from" | "target"): Sorted {
    const oneWay = by === "target" ? new Set(ONE_WAY.map((field) => this.numbering.of(field))) : undefined;
    const keys = this.#references[by];
    const { field } = this.#references;
    const isLeftOut = (number: number): boolean => oneWay?.has(field[number] ?? 0) === true;
    const start = new Int32Array(this.items.length + 2);
    keys.forEach((key, number) => {
      if (!isLeftOut(number)) start[key + 2] = (start[key + 2] ?? 0) + 1;
    });
    for (let at = 2; at < start.length; at++) start[at] = (start[at] ?? 0) + (start[at - 1] ?? 0);
    const order = new Int32Array(start.at(-1) ?? 0);
    keys.forEach((key, number) => {
      if (isLeftOut(number)) return;
      const next = start[key + 1] ?? 0;
      order[next] = number;
      start[key + 1] = next + 1;
    });
    return { start, order };
  }
}

/** Positions of references, those of one item side by side. */
interface Sorted {
  readonly start: Int32Array;
  readonly order: Int32Array;
}

/** Whether the same is told of two items, whatever they name. */
export function isToldSame(a: ComparedItem, b: ComparedItem): boolean {
  if (!isSameData(a.raw, b.raw, SKIPPED.get(a.kind))) return false;
  if ((a.told?.size ?? 0) !== (b.told?.size ?? 0)) return false;
  for (const [field, value] of a.told ?? []) if (b.told?.get(field) !== value) return false;
  return true;
}

function isSameData(a: unknown, b: unknown, skip?: ReadonlySet<string>, prefix = ""): boolean {
  if (typeof a !== "object" || typeof b !== "object" || a === null || b === null) return a === b;
  const [one, two] = [a as Readonly<Record<string, unknown>>, b as Readonly<Record<string, unknown>>];
  for (const key in one) {
    const field = prefix === "" ? key : prefix + key;
    if (skip?.has(field) !== true && !isSameData(one[key], two[key], skip, `${field}.`)) return false;
  }
  for (const key in two)
    if (one[key] === undefined && two[key] !== undefined && skip?.has(prefix + key) !== true) return false;
  return true;
}

function flatten(raw: object, skip: ReadonlySet<string> | undefined, into: Map<string, FieldValue>, prefix = ""): void {
  const fields: readonly (readonly [string, unknown])[] = Object.entries(raw);
  for (const [key, value] of fields) {
    const field = prefix + key;
    if (value === undefined || value === null || skip?.has(field) === true) continue;
    if (typeof value === "object" && !Array.isArray(value)) flatten(value, skip, into, `${field}.`);
    else if (typeof value === "string" || typeof value === "number" || typeof value === "boolean")
      into.set(field, value);
    else into.set(field, JSON.stringify(value));
  }
}

/** Which item of one document is which of the other: numbers, -1 where there is none. */
export interface Pairing {
  readonly toAfter: Int32Array;
  readonly toBefore: Int32Array;
}
