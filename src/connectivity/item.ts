import { z } from "zod";
import { keptFor } from "../base/index.ts";
import type { Harness, HarnessEdge, HarnessNode } from "../harness-model/index.ts";

/** The nodes that edges end at, each once. */
export function edgeEnds(harness: Harness, edges: readonly number[]): readonly number[] {
  const { from, to } = harness.index;
  return [...new Set(edges.flatMap((edge) => [from[edge] ?? -1, to[edge] ?? -1]))];
}

interface Parts {
  readonly edges: number[];
  readonly terminals: number[];
}

const partsOf = keptFor((harness: Harness): ReadonlyMap<string, Parts> => {
  const parts = new Map<string, Parts>();
  const of = (component: string): Parts => {
    let entry = parts.get(component);
    if (!entry) parts.set(component, (entry = { edges: [], terminals: [] }));
    return entry;
  };
  harness.edges.forEach((edge, number) => {
    if (edge.kind === "element") of(edge.component.id).edges.push(number);
  });
  harness.nodes.forEach((node, number) => {
    if (node.kind === "stud" && node.stud.component !== undefined) of(node.stud.component).terminals.push(number);
    const device = node.kind === "contact" && node.side.id === "device" ? node.connector.component : undefined;
    if (device !== undefined) of(device).terminals.push(number);
  });
  return parts;
});

/** The edges that the elements of a component make. */
export function componentEdges(harness: Harness, id: string): readonly number[] {
  return partsOf(harness).get(id)?.edges ?? [];
}

/** Terminals of a component: its device contacts and studs, or, where it has none, what its elements end at outside. One group a terminal. */
export function componentTerminals(harness: Harness, id: string): readonly (readonly number[])[] {
  const terminals = partsOf(harness).get(id)?.terminals ?? [];
  const outside = edgeEnds(harness, componentEdges(harness, id)).filter((end) => harness.nodes[end]?.kind !== "inner");
  return (terminals.length > 0 ? terminals : outside).map((terminal) => [terminal]);
}

/** The sorts of thing an answer can name. */
const ItemType = z.enum([
  "contact",
  "wire",
  "splice",
  "stud",
  "element",
  "component",
  "connector",
  "segment",
  "zone",
  "net",
  "code",
  "inner",
  "open-end",
]);
/** A sort of thing an answer can name. */
export type ItemType = z.infer<typeof ItemType>;

/**
 * A thing of the machine, named in an answer. A `contact` with the id `A1.X1:36` is the mated pair of both halves, with
 * `A1.X1.device:36` or `XC1m:3` one half of it.
 */
export const Item = z
  .object({ type: ItemType.describe("Sort of item"), id: z.string().describe("Id or address of the item") })
  .describe("An item, by sort and id");
export type Item = Readonly<z.infer<typeof Item>>;

/** A key that is the same for the same item and differs between any two. */
export function itemKey(item: Item): string {
  return `${item.type} ${item.id}`;
}

/** Nodes and edges of a harness, by number. */
interface Part {
  readonly nodes: Iterable<number>;
  readonly edges: Iterable<number>;
}

/**
 * The things a part of the graph stands for, each once: wires, elements, splices, studs, contacts. Two mated contacts with their mating in
 * the part are one contact item; a contact without it is named as its half. Points inside components are left out.
 *
 * @param part Numbers of nodes and edges; their order is the order of the answer.
 */
export function collectItems(harness: Harness, part: Part): readonly Item[] {
  const items = new Map<string, Item>();
  const add = (item: Item): void => {
    items.set(itemKey(item), item);
  };
  const mated = new Set<string>();
  for (const number of part.edges) {
    const edge = harness.edges[number];
    if (!edge) continue;
    if (edge.kind === "mating") mated.add(edge.key);
    add(edgeItem(edge));
  }
  for (const number of part.nodes) {
    const node = harness.nodes[number];
    if (!node || node.kind === "inner") continue;
    if (node.kind === "contact" && mated.has(jointId(node))) continue;
    add(nodeItem(node));
  }
  return [...items.values()];
}

/** Id of the mated pair a contact belongs to, such as `A1.X1:36`. */
export function jointId(node: Extract<HarnessNode, { kind: "contact" }>): string {
  return `${node.connector.id}:${node.cavity.id}`;
}

/** The item an edge stands for. */
export function edgeItem(edge: HarnessEdge): Item {
  switch (edge.kind) {
    case "wire":
      return { type: "wire", id: edge.key };
    case "mating":
      return { type: "contact", id: edge.key };
    case "element":
      return { type: "element", id: `${edge.component.id}.${edge.element.id}` };
  }
}

/** The item a node stands for by itself. */
export function nodeItem(node: HarnessNode): Item {
  return { type: node.kind, id: node.key };
}

/**
 * The things along a path, in order: contact, wire, contact, splice and so on.
 *
 * @param path Nodes and the edges between them, in order.
 */
export function pathItems(
  harness: Harness,
  path: { readonly nodes: readonly number[]; readonly edges: readonly number[] },
): readonly Item[] {
  const items: Item[] = [];
  const add = (item: Item): void => {
    const last = items.at(-1);
    if (!last || itemKey(last) !== itemKey(item)) items.push(item);
  };
  path.nodes.forEach((number, at) => {
    const node = harness.nodes[number];
    const before = harness.edges[path.edges[at - 1] ?? -1];
    const after = harness.edges[path.edges[at] ?? -1];
    if (node && node.kind !== "inner" && before?.kind !== "mating" && after?.kind !== "mating") add(nodeItem(node));
    if (after) add(edgeItem(after));
  });
  return items;
}
