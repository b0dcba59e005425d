import type { Harness, HarnessEdge, HarnessNode } from "../model/index.ts";
import { itemKey, type Item } from "./item.ts";

/** Nodes and edges of a harness, by number. */
export interface Part {
  readonly nodes: Iterable<number>;
  readonly edges: Iterable<number>;
}

/**
 * The things a part of the graph stands for, each once: wires, elements, splices, studs, contacts. Two mated contacts with their
 * mating in the part are one contact item; a contact without it is named as its half. Points inside components are left out.
 *
 * @param harness The harness.
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
 * @param harness The harness.
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
