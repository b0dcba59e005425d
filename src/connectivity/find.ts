import { addTo, editDistance, keptFor, naturalOrder } from "../base/index.ts";
import { describeColour, type ConnectorSide, type Harness, type Part } from "../harness-model/index.ts";
import { edgeItem, jointId, type Item } from "./item.ts";

/** A thing found, with what it reads as. `isWhole` says that the words are exactly its id or its label. */
export interface Hit {
  readonly item: Item;
  readonly label: string;
  /** 0 is best; grows with every prefix, part and typing slip. */
  readonly distance: number;
  readonly isWhole: boolean;
}

/** How to search. */
interface FindOptions {
  readonly limit?: number;
}

interface SearchIndex {
  readonly entries: readonly SearchEntry[];
  /** Entries by word, as positions in `entries`. */
  readonly byWord: ReadonlyMap<string, readonly number[]>;
}

const searchIndex = keptFor((harness: Harness): SearchIndex => {
  const entries = searchEntries(harness);
  const byWord = new Map<string, number[]>();
  entries.forEach((entry, position) => {
    for (const word of entry.words) {
      addTo(byWord, word, position);
    }
  });
  return { entries, byWord };
});

/** What a match costs; our own weights. */
const COST = { exact: 0, prefix: 1, part: 3, slip: 4 };

/**
 * Searches a harness by address, label, colour and size, code, net or kind, in any word order. Every word must match; a word matches
 * exactly, by its beginning, by a part of it, or with a typing slip (one from four letters on, two from eight).
 *
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

/** One thing that can be searched for, with the words it is known by. */
interface SearchEntry {
  readonly item: Item;
  /** What a person reads beside the id. */
  readonly label: string;
  readonly words: readonly string[];
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

/**
 * Everything of a harness that can be searched for. Contacts are listed once a mated pair and know the wires that end in them.
 *
 * @param harness The harness; only what is fitted is listed.
 */
function searchEntries(harness: Harness): readonly SearchEntry[] {
  const entries: SearchEntry[] = [];
  const add = (item: Item, label: string, more: readonly string[] = []): void => {
    entries.push({ item, label, words: [...new Set([item.id, label, ...more].flatMap(searchWords))] });
  };
  const { fitted, document } = harness;
  for (const component of fitted.components.values())
    add({ type: "component", id: component.id }, component.label, [component.kind, ...partWords(component.part)]);
  for (const connector of fitted.connectors.values()) {
    const sides = fitted.sides.get(connector.id) ?? [];
    const names = sides.flatMap((side) => [side.name ?? "", ...partWords(side.part), ...plugWords(side)]);
    add({ type: "connector", id: connector.id }, connector.label, ["connector plug", ...names, connector.note ?? ""]);
  }
  for (const splice of fitted.splices.values())
    add({ type: "splice", id: splice.id }, splice.label ?? "splice", ["splice joint", ...partWords(splice.part)]);
  for (const stud of fitted.terminalStuds.values())
    add({ type: "stud", id: stud.id }, stud.label, ["stud ring post", stud.role, ...partWords(stud.part)]);
  for (const code of document.codes) add({ type: "code", id: code.id }, code.label, codeWords(code.spn, code.fmi));
  for (const net of document.nets)
    add({ type: "net", id: net.id }, net.label ?? net.kind ?? "", [net.kind ?? "", "net"]);
  // A label that wires carry can be asked for whether or not the document lists its nets.
  const listed = new Set(document.nets.map((net) => net.id));
  const used = new Set([...fitted.wires.values()].flatMap(({ net }) => net ?? []));
  for (const id of used) if (!listed.has(id)) add({ type: "net", id }, id, ["net"]);
  for (const segment of document.segments)
    add({ type: "segment", id: segment.id }, segment.covering ?? "segment", ["segment"]);
  for (const wire of fitted.wires.values())
    add({ type: "wire", id: wire.id }, wireLabel(wire), [
      ...["wire", wireColourWords(wire.colour), wire.number ?? "", wire.type ?? ""],
      ...partWords(wire.part),
      wire.note ?? "",
      wire.ends[1] === undefined ? "open end" : "",
    ]);
  addElements(harness, add);
  addContacts(harness, add);
  return entries;
}

/** What a part is searched by: its number and its maker. */
function partWords(part: Part | undefined): readonly string[] {
  return part ? [part.number, part.maker ?? ""] : [];
}

/** Plugs close cavities that are no contacts, so the connector is found by them. */
function plugWords({ fitted = [] }: ConnectorSide): readonly string[] {
  return fitted.flatMap(({ plug }) => partWords(plug));
}

type Add = (item: Item, label: string, more?: readonly string[]) => void;

function codeWords(spn: number | undefined, fmi: number | undefined): readonly string[] {
  return ["code", spn === undefined ? "" : `spn ${spn}`, fmi === undefined ? "" : `fmi ${fmi}`];
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
    const rating = edge.element.kind === "fuse" ? `${edge.element.ratedAmpere} A` : "";
    add(item, `${edge.component.label}: ${edge.element.label ?? edge.element.kind} ${rating}`.trim(), [
      edge.element.kind,
      ...partWords(edge.element.part),
    ]);
  }
}

function addContacts(harness: Harness, add: Add): void {
  const wiresAt = new Map<string, string[]>();
  const labels = new Map<string, string>();
  // A cavity of which nothing but a note is known can be found as well.
  for (const connector of harness.fitted.connectors.values()) {
    for (const cavity of connector.cavities) {
      if (cavity.note === undefined) continue;
      const id = `${connector.id}:${cavity.id}`;
      wiresAt.set(id, ["pin cavity contact", connector.id, cavity.id, cavity.note]);
      labels.set(id, `${connector.label}, cavity ${cavity.id}`);
    }
  }
  harness.nodes.forEach((node, number) => {
    if (node.kind !== "contact") return;
    const id = jointId(node);
    const words = wiresAt.get(id) ?? ["pin cavity contact", node.connector.id, node.cavity.id];
    words.push(node.key);
    for (const { cavity, terminal, seal } of node.side.fitted ?? [])
      if (cavity === node.cavity.id) words.push(...[terminal, seal].flatMap(partWords));
    const { offsets, arcEdges } = harness.index;
    for (let arc = offsets[number] ?? 0; arc < (offsets[number + 1] ?? 0); arc++) {
      const edge = harness.edges[arcEdges[arc] ?? -1];
      if (edge?.kind === "wire") {
        const { id: wire, colour, note } = edge.wire;
        words.push(wire, wireLabel(edge.wire), wireColourWords(colour), note ?? "");
      }
    }
    wiresAt.set(id, words);
    labels.set(id, `${node.connector.label}, cavity ${node.cavity.id}`);
  });
  for (const [id, words] of wiresAt) add({ type: "contact", id }, labels.get(id) ?? id, words);
}
