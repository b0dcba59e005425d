import { keptFor, naturalOrder } from "../base/index.ts";
import type { Harness } from "../harness-model/index.ts";
import { findCircuits, type Circuit } from "./circuits.ts";
import { circuitsOf } from "./find-circuit.ts";
import { findNet } from "./find-net.ts";
import { collectItems, itemKey, type Item, type ItemType } from "./item.ts";
import type { Resolved } from "./resolve.ts";

/** How a circuit behaves: the marks that decide what is suspect. */
export type Mark = "bad" | "good" | "unknown";

/** One thing asked about, with its mark. */
export interface Marked {
  readonly item: Resolved;
  readonly mark: Mark;
}

/**
 * What a thing stands for: the circuits it belongs to, or, where no supply or consumer is known or the circuits share nothing, also all that
 * conductors join to it.
 */
export type CommonBasis = "circuits" | "conductors";

/** Something that two or more of the asked circuits share. */
export interface CommonItem extends Item {
  /** Ids of the asked things whose circuits pass it. */
  readonly circuits: readonly string[];
  readonly bad: number;
  readonly good: number;
  /** True if it is in every circuit marked bad and in none marked good. */
  readonly isSuspect: boolean;
  /** How many circuits of the whole machine pass it; the fewer, the more it says. */
  readonly circuitsInAll: number;
}

/** Common wiring of circuits, most suspect first. */
interface CommonAnswer {
  readonly kind: "common";
  readonly basis: CommonBasis;
  readonly asked: readonly { readonly item: Item; readonly mark: Mark; readonly circuits: number }[];
  readonly items: readonly CommonItem[];
}

/** What a circuit passes, split so that only what may fail alone is counted; derived places come after. */
const TYPE_ORDER: readonly ItemType[] = [
  "splice",
  "contact",
  "wire",
  "element",
  "stud",
  "connector",
  "segment",
  "component",
];

/** One asked thing with all that it stands for. */
interface Asked {
  readonly item: Resolved;
  readonly mark: Mark;
  readonly circuits: readonly Circuit[];
}

/**
 * What two or more circuits share: wires, contacts, splices, fuses and other elements, studs, connectors and segments.
 *
 * A thing in all circuits marked bad and in none marked good is suspect. Order: suspects, then by share of bad circuits less share of good
 * ones, then what the fewest circuits of the machine pass, then natural order.
 *
 * Where one of them belongs to no known circuit, or their circuits share nothing, each also stands for its nets: what conductors join is
 * joined whether or not a supply or consumer is known.
 *
 * @param marked The things asked about; each stands for all circuits it belongs to.
 * @returns The shared things; an empty list if nothing is shared or fewer than two things are asked.
 */
export function findCommon(harness: Harness, marked: readonly Marked[]): CommonAnswer {
  const asked = marked.map(({ item, mark }): Asked => ({ item, mark, circuits: circuitsOf(harness, item) }));
  const shared = asked.every(({ circuits }) => circuits.length > 0) ? commonItems(harness, asked, "circuits") : [];
  const basis = shared.length > 0 ? "circuits" : "conductors";
  return {
    kind: "common",
    basis,
    asked: asked.map(({ item, mark, circuits }) => ({
      item: { type: item.type, id: item.id },
      mark,
      circuits: circuits.length,
    })),
    items: basis === "circuits" ? shared : commonItems(harness, asked, basis),
  };
}

function commonItems(harness: Harness, asked: readonly Asked[], basis: CommonBasis): readonly CommonItem[] {
  const seen = new Map<string, { item: Item; by: number[] }>();
  asked.forEach(({ item, circuits }, position) => {
    for (const each of itemsOf(harness, basis === "circuits" ? circuits : [...circuits, findNet(harness, item)])) {
      const entry = seen.get(itemKey(each)) ?? { item: each, by: [] };
      entry.by.push(position);
      seen.set(itemKey(each), entry);
    }
  });
  const counts = {
    bad: asked.filter((each) => each.mark === "bad").length,
    good: asked.filter((each) => each.mark === "good").length,
  };
  const inAll = circuitsPassing(harness);
  const items = [...seen.values()]
    .filter(({ by }) => by.length >= 2)
    .map(({ item, by }): CommonItem => {
      const bad = by.filter((position) => asked[position]?.mark === "bad").length;
      const good = by.filter((position) => asked[position]?.mark === "good").length;
      const isSuspect = counts.bad > 0 && bad === counts.bad && good === 0;
      const circuits = by.map((position) => asked[position]?.item.id ?? "");
      return { ...item, circuits, bad, good, isSuspect, circuitsInAll: inAll.get(itemKey(item)) ?? 0 };
    });
  const weight = (item: CommonItem): number =>
    item.bad / Math.max(1, counts.bad) - item.good / Math.max(1, counts.good);
  items.sort(
    (a, b) =>
      Number(b.isSuspect) - Number(a.isSuspect) ||
      weight(b) - weight(a) ||
      a.circuitsInAll - b.circuitsInAll ||
      TYPE_ORDER.indexOf(a.type) - TYPE_ORDER.indexOf(b.type) ||
      naturalOrder(a.id, b.id),
  );
  return items;
}

/** What a circuit or a net passes, as numbers of nodes and edges. */
interface Passed {
  readonly nodes: Iterable<number>;
  readonly edges: Iterable<number>;
}

/** Everything the circuits pass, with the connectors and segments they run through. */
function itemsOf(harness: Harness, circuits: readonly Passed[]): readonly Item[] {
  const items = new Map<string, Item>();
  for (const circuit of circuits) for (const item of circuitItems(harness, circuit)) items.set(itemKey(item), item);
  return [...items.values()];
}

function circuitItems(harness: Harness, circuit: Passed): readonly Item[] {
  const places: Item[] = [];
  for (const number of circuit.nodes) {
    const node = harness.nodes[number];
    if (node?.kind === "contact") places.push({ type: "connector", id: node.connector.id });
  }
  for (const number of circuit.edges) {
    const edge = harness.edges[number];
    if (edge?.kind === "wire") for (const id of edge.wire.route ?? []) places.push({ type: "segment", id });
  }
  // An open end is no part that could fail: it is where the data ends.
  return [...collectItems(harness, circuit).filter(({ type }) => type !== "open-end"), ...places];
}

const circuitsPassing = keptFor((harness: Harness): ReadonlyMap<string, number> => {
  const found = new Map<string, number>();
  for (const circuit of findCircuits(harness).all)
    for (const key of new Set(circuitItems(harness, circuit).map(itemKey))) found.set(key, (found.get(key) ?? 0) + 1);
  return found;
});
