import { addTo, editDistance, keptFor, naturalOrder } from "../base/index.ts";
import {
  describeColour,
  type Connector,
  type ConnectorSide,
  type Element,
  type Harness,
  type Part,
} from "../harness-model/index.ts";
import { edgeItem, jointId, type Item, type ItemType } from "./item.ts";

/** An item found, with what it reads as. */
export interface Hit {
  readonly item: Item;
  readonly label: string;
  /** Smaller is better; grows with every beginning, part, typing error and borrowed word. */
  readonly distance: number;
}

/** How to search. */
interface FindOptions {
  readonly limit?: number;
}

/** An item with one of its words: how much more the match of that word costs. */
interface Place {
  readonly position: number;
  readonly extra: number;
}

interface SearchIndex {
  readonly entries: readonly SearchEntry[];
  /** Entries by word. */
  readonly byWord: ReadonlyMap<string, readonly Place[]>;
  /** Entries by id and by label, in small letters, as positions in `entries`. */
  readonly byName: ReadonlyMap<string, readonly number[]>;
}

const searchIndex = keptFor((harness: Harness): SearchIndex => {
  const entries = searchEntries(harness);
  const byWord = new Map<string, Place[]>();
  const byName = new Map<string, number[]>();
  entries.forEach(({ item, label, words }, position) => {
    for (const [word, extra] of words) addTo(byWord, word, { position, extra });
    for (const name of new Set([item.id.toLowerCase(), label.toLowerCase()])) addTo(byName, name, position);
  });
  return { entries, byWord, byName };
});

/** What a match costs; our own weights. */
const COST = { exact: 0, prefix: 1, numberPrefix: 2, part: 3, slip: 4 };
/** What a word costs beside its match: one that names the kind, the number of a designator, one of a wire at a contact. */
const EXTRA = { kind: -1, own: 0, number: 0.5, borrowed: 2 };
/** What an internal circuit element costs: the part it is in comes first. */
const INSIDE = 2;

/** Of equal hits: items before what is inside them. */
const TYPE_ORDER: readonly ItemType[] = [
  "component",
  "code",
  "net",
  "wire",
  "connector",
  "contact",
  "element",
  "splice",
  "stud",
  "segment",
];

/** Words of the trade that mean what the search calls otherwise. */
const SAME_WORD: ReadonlyMap<string, string> = new Map([
  ["earth", "ground"],
  ["gnd", "ground"],
  ["plug", "connector"],
  ["bulkhead", "pass-through"],
  ["cable", "wire"],
  ["tracer", "stripe"],
  ["cavity", "pin"],
  ["contact", "pin"],
  ["terminal", "pin"],
  ["joint", "splice"],
  ["dtc", "code"],
]);

/**
 * Searches a harness by address, label, colour and size, code, net or kind, in any word order. Every word must match; a word matches
 * exactly, by its beginning, by a part of it, or with a typing error (one from four letters on, two from eight, where nothing
 * else matches). A kind with a number finds the designator (`fuse 7`), the first letters of a name stand for it (`ecu 36`).
 *
 * @param text What was typed, such as `rail sensor`, `0,5 wh/rd` or `pin 36 A1.X1`.
 * @param options How many hits at most; 20 if not said.
 * @returns Hits, best first, an item before what is inside it, equal ones in natural order of their ids; none for an empty text.
 */
export function find(harness: Harness, text: string, options: FindOptions = {}): readonly Hit[] {
  const words = searchWords(text.slice(0, 200)).slice(0, 12);
  if (words.length === 0) return [];
  const { entries, byWord } = searchIndex(harness);
  let distances: Map<number, number> | undefined;
  for (const word of words) {
    const both = new Map<number, number>();
    for (const [position, cost] of matches(byWord, word)) {
      const before = distances === undefined ? 0 : distances.get(position);
      if (before !== undefined) both.set(position, before + cost);
    }
    distances = both;
  }
  const whole = text.trim().toLowerCase();
  const hits = [...(distances ?? [])].flatMap(([position, distance]) => {
    const entry = entries[position];
    if (!entry) return [];
    const isId = entry.item.id.toLowerCase() === whole;
    return [{ item: entry.item, label: entry.label, distance: isId ? -100 : distance + entry.extra }];
  });
  const rank = ({ type }: Item): number => TYPE_ORDER.indexOf(type);
  hits.sort((a, b) => a.distance - b.distance || rank(a.item) - rank(b.item) || naturalOrder(a.item.id, b.item.id));
  return hits.slice(0, options.limit ?? 20);
}

/** The items whose id or label a text is, whatever its letters: what a person means who types a whole name. */
export function itemsNamed(harness: Harness, text: string): readonly Item[] {
  const { entries, byName } = searchIndex(harness);
  return (byName.get(text.trim().toLowerCase()) ?? []).flatMap((position) => entries[position]?.item ?? []);
}

/** The entries that a word leads to; by a typing error only where nothing else does. */
function matches(byWord: SearchIndex["byWord"], word: string): ReadonlyMap<number, number> {
  const found = new Map<number, number>();
  const same = SAME_WORD.get(word);
  const take = (costOf: (known: string) => number | undefined): void => {
    for (const [known, places] of byWord) {
      const cost = costOf(known);
      if (cost === undefined) continue;
      for (const { position, extra } of places)
        found.set(position, Math.min(cost + extra, found.get(position) ?? Infinity));
    }
  };
  take((known) => (known === same ? COST.exact : wordCost(known, word)));
  if (found.size === 0) take((known) => slipCost(known, word));
  return found;
}

function wordCost(known: string, word: string): number | undefined {
  if (known === word) return COST.exact;
  if (known.startsWith(word)) return /\d/u.test(word) ? COST.numberPrefix : COST.prefix;
  return word.length >= 3 && !/^[\d.]+$/u.test(word) && known.includes(word) ? COST.part : undefined;
}

function slipCost(known: string, word: string): number | undefined {
  const slips = word.length >= 8 ? 2 : word.length >= 4 ? 1 : 0;
  if (slips === 0 || Math.abs(known.length - word.length) > slips) return undefined;
  const distance = editDistance(known, word, slips);
  return distance <= slips ? COST.slip * distance : undefined;
}

/** One item that can be searched for, with the words it is known by and what each costs beside its match. */
interface SearchEntry {
  readonly item: Item;
  /** What a person reads beside the id. */
  readonly label: string;
  readonly words: ReadonlyMap<string, number>;
  readonly extra: number;
}

/** Splits a text into the words a search compares: small letters, decimal comma as point, units of size dropped. */
function searchWords(text: string): readonly string[] {
  return text
    .toLowerCase()
    .replace(/(\d),(?=\d)/gu, "$1.")
    .replace(/(\d)\s*mm(?:2|²)/gu, "$1")
    .split(/[\s,;()]+/u)
    .filter((word) => word !== "");
}

/** The words of a text, each also in its pieces: `A1.X1:36` is found by `a1` and `36`, `lift-pump` by `pump`. */
function wordsAndPieces(text: string): readonly string[] {
  return searchWords(text).flatMap((word) =>
    /^[\d.]+$/u.test(word) ? [word] : [word, ...word.split(/[-./:_]+/u).filter((piece) => piece !== "")],
  );
}

/** The first letters of a name of three words or more: `ecu` for an engine control unit. */
function initials(label: string): string {
  const words = (label.split(",")[0] ?? "").split(/[\s-]+/u).filter((word) => /^\p{L}/u.test(word));
  return words.length < 3 ? "" : words.map((word) => word.charAt(0)).join("");
}

/** The number of a designator: 7 of `A3.F7`, 89 of `W89`. */
function numberOf(id: string): string {
  return /(?:^|[.:])[a-z]{1,4}0*(\d+)(?:-[a-z]+)?$/iu.exec(id)?.[1] ?? "";
}

/** What an item is found by, beside its id and label. */
interface MoreWords {
  /** Words that name its kind. */
  readonly kind: string;
  readonly own?: readonly string[];
  /** Words of something else that lead here too. */
  readonly borrowed?: readonly string[];
  readonly extra?: number;
}

function makeEntry(item: Item, label: string, { kind, own = [], borrowed = [], extra = 0 }: MoreWords): SearchEntry {
  const words = new Map<string, number>();
  const take = (texts: readonly string[], cost: number): void => {
    for (const word of texts.flatMap(wordsAndPieces)) words.set(word, Math.min(cost, words.get(word) ?? Infinity));
  };
  take([item.id, label, ...own], EXTRA.own);
  take([kind], EXTRA.kind);
  take([numberOf(item.id)], EXTRA.number);
  take(borrowed, EXTRA.borrowed);
  return { item, label, words, extra };
}

/**
 * Everything of a harness that can be searched for. Contacts are listed once a mated pair and know the wires that end in them.
 *
 * @param harness The harness; only what is fitted is listed.
 */
function searchEntries(harness: Harness): readonly SearchEntry[] {
  const entries: SearchEntry[] = [];
  const add: Add = (item, label, more) => void entries.push(makeEntry(item, label, more));
  const { fitted, document } = harness;
  for (const { id, label, kind, part } of fitted.components.values())
    add({ type: "component", id }, label, { kind, own: [initials(label), ...partWords(part)] });
  for (const connector of fitted.connectors.values()) {
    const sides = fitted.sides.get(connector.id) ?? [];
    const names = sides.flatMap((side) => [side.name ?? "", ...partWords(side.part), ...plugWords(side)]);
    const own = [connector.kind, ...ownerWords(harness, connector), ...names, connector.note ?? ""];
    add({ type: "connector", id: connector.id }, connector.label, { kind: "connector", own });
  }
  for (const { id, label, part } of fitted.splices.values())
    add({ type: "splice", id }, label ?? "splice", { kind: "splice", own: partWords(part) });
  for (const { id, label, role, part } of fitted.terminalStuds.values())
    add({ type: "stud", id }, label, { kind: `stud ${role}`, own: ["ring post", ...partWords(part)] });
  for (const { id, label, spn, fmi } of document.codes)
    add({ type: "code", id }, label, { kind: "code", own: codeWords(spn, fmi) });
  for (const { id, label, kind = "" } of document.nets)
    add({ type: "net", id }, label ?? kind, { kind: "net", own: [kind] });
  // A label that wires carry can be asked for whether or not the document lists its nets.
  const listed = new Set(document.nets.map((net) => net.id));
  const used = new Set([...fitted.wires.values()].flatMap(({ net }) => net ?? []));
  for (const id of used) if (!listed.has(id)) add({ type: "net", id }, id, { kind: "net" });
  for (const { id, covering } of document.segments)
    add({ type: "segment", id }, covering ?? "segment", { kind: "segment" });
  const netLabels = new Map(document.nets.map(({ id, label }) => [id, label]));
  for (const wire of fitted.wires.values()) {
    const { id, colour, number, type, part, note, net = "", ends } = wire;
    const open = ends[1] === undefined ? "open end" : "";
    const own = [wireColourWords(colour), number ?? "", type ?? "", ...partWords(part), note ?? "", open];
    add({ type: "wire", id }, wireLabel(wire), { kind: "wire", own, borrowed: [netLabels.get(net) ?? ""] });
  }
  addElements(harness, add);
  addContacts(harness, add);
  return entries;
}

/** What a connector is found by of the part it is on. */
function ownerWords({ fitted }: Harness, { component, label }: Connector): readonly string[] {
  const owner = fitted.components.get(component ?? "");
  return owner ? [owner.id, owner.label, initials(owner.label)] : [initials(label)];
}

/** What a part is searched by: its number and its maker. */
function partWords(part: Part | undefined): readonly string[] {
  return part ? [part.number, part.maker ?? ""] : [];
}

/** Plugs close cavities that are no contacts, so the connector is found by them. */
function plugWords({ fitted = [] }: ConnectorSide): readonly string[] {
  return fitted.flatMap(({ plug }) => partWords(plug));
}

type Add = (item: Item, label: string, more: MoreWords) => void;

function codeWords(spn: number | undefined, fmi: number | undefined): readonly string[] {
  if (spn === undefined) return fmi === undefined ? [] : [`fmi ${fmi}`];
  return [`spn ${spn}`, ...(fmi === undefined ? [] : [`fmi ${fmi}`, `${spn}/${fmi}`])];
}

/** What a wire reads as: colour, size, net. */
export function wireLabel(wire: {
  colour?: string | undefined;
  crossSectionMm2?: number | undefined;
  net?: string | undefined;
}): string {
  const size = wire.crossSectionMm2 === undefined ? undefined : `${wire.crossSectionMm2} mm²`;
  return [wire.colour, size, wire.net].filter((part) => part !== undefined).join(" ");
}

function wireColourWords(colour: string | undefined): string {
  return colour === undefined
    ? ""
    : `${describeColour(colour)} ${colour.replaceAll("/", " ")} ${colour.replaceAll("/", "")}`;
}

function addElements(harness: Harness, add: Add): void {
  const seen = new Set<string>();
  for (const edge of harness.edges) {
    if (edge.kind !== "element") continue;
    const item = edgeItem(edge);
    if (seen.has(item.id)) continue;
    seen.add(item.id);
    const { element, component } = edge;
    const rating = element.kind === "fuse" ? `${element.ratedAmpere} A` : "";
    const kind = isOfRelay(element, component.elements) ? `relay ${element.kind}` : element.kind;
    add(item, `${component.label}: ${element.label ?? element.kind} ${rating}`.trim(), {
      kind,
      own: partWords(element.part),
      extra: isFuseOrRelay(element, component.elements) ? 0 : INSIDE,
    });
  }
}

function isOfRelay(element: Element, all: readonly Element[]): boolean {
  return (
    element.kind === "contact" ||
    (element.kind === "coil" && all.some((each) => "of" in each && each.of === element.id))
  );
}

/** Whether an element of a part is a fuse, or the coil or contact of a relay: what a person plugs in and calls by its number. */
export function isFuseOrRelay(element: Element, all: readonly Element[]): boolean {
  return element.kind === "fuse" || isOfRelay(element, all);
}

function addContacts(harness: Harness, add: Add): void {
  interface Found {
    readonly label: string;
    readonly own: string[];
    readonly borrowed: string[];
  }
  const found = new Map<string, Found>();
  const at = (id: string, connector: Connector, cavity: string): Found => {
    const known = found.get(id);
    if (known) return known;
    const own = [connector.id, cavity, ...ownerWords(harness, connector)];
    const made = { label: `${connector.label}, cavity ${cavity}`, own, borrowed: [] };
    found.set(id, made);
    return made;
  };
  // A cavity of which nothing but a note is known can be found as well.
  for (const connector of harness.fitted.connectors.values())
    for (const { id, note } of connector.cavities)
      if (note !== undefined) at(`${connector.id}:${id}`, connector, id).own.push(note);
  harness.nodes.forEach((node, number) => {
    if (node.kind !== "contact") return;
    const { own, borrowed } = at(jointId(node), node.connector, node.cavity.id);
    own.push(node.key);
    for (const { cavity, terminal, seal } of node.side.fitted ?? [])
      if (cavity === node.cavity.id) own.push(...[terminal, seal].flatMap(partWords));
    const { offsets, arcEdges } = harness.index;
    for (let arc = offsets[number] ?? 0; arc < (offsets[number + 1] ?? 0); arc++) {
      const edge = harness.edges[arcEdges[arc] ?? -1];
      if (edge?.kind !== "wire") continue;
      const { id: wire, colour, note } = edge.wire;
      borrowed.push(wire, wireLabel(edge.wire), wireColourWords(colour), note ?? "");
    }
  });
  for (const [id, { label, own, borrowed }] of found)
    // A cavity without a wire comes after one that has a wire.
    add({ type: "contact", id }, label, { kind: "pin", own, borrowed, extra: borrowed.length === 0 ? 0.5 : 0 });
}
