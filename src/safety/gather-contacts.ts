import { isPermittedAt } from "../model/index.ts";
import type { Method } from "./method.ts";
import type { Contact, NumberedNode } from "./contact.ts";
import { contactAtFuse, contactAtNode, contactsOnWire } from "./make-contacts.ts";
import type { SafetyIndex } from "./safety-index.ts";

/** Which method each kind of adapter serves. */
const ADAPTER_METHODS = {
  "in-line": "in-line",
  mating: "mating-adapter",
  "relay-extension": "relay-extension",
} as const satisfies Record<string, Method>;

/** Nodes and edges that contacts are wanted at, by number. */
export interface Places {
  readonly nodes: Iterable<number>;
  readonly edges: Iterable<number>;
}

/**
 * Every way of taking a reading worth judging at some nodes and wires: what the trade uses there, and what people are tempted by. Which of
 * it is allowed is for the rules to say.
 *
 * @param index The index.
 * @param places Where.
 */
export function gatherContacts(index: SafetyIndex, places: Places): readonly Contact[] {
  const contacts: Contact[] = [];
  for (const number of places.nodes) {
    const node = index.harness.nodes[number];
    if (!node) continue;
    contacts.push(...contactsAtNode(index, { number, node }), ...fusesAtNode(index, { number, node }));
  }
  for (const number of places.edges) {
    const edge = index.harness.edges[number];
    if (edge?.kind !== "wire") continue;
    for (const method of ["clamp", "pierce"] as const)
      contacts.push(...contactsOnWire(index, { number, edge }, method));
  }
  return contacts;
}

function contactsAtNode(index: SafetyIndex, at: NumberedNode): readonly Contact[] {
  const through = adapterContacts(index, at);
  const isBare = isAdapterExpected(at) && through.length === 0;
  const methods: readonly Method[] = isBare ? [...methodsAt(at), "in-line"] : methodsAt(at);
  return [...methods.map((method) => contactAtNode(index, at, { method })), ...through];
}

/** The contacts that adapters of the document make at a node. */
export function adapterContacts(index: SafetyIndex, at: NumberedNode): readonly Contact[] {
  return (index.adaptersAt.get(at.number) ?? []).map((adapter) =>
    contactAtNode(index, at, { method: ADAPTER_METHODS[adapter.method], adapter }),
  );
}

/** Whether the document permits an adapter here, so that it is worth saying that it lists none. */
function isAdapterExpected({ node }: NumberedNode): boolean {
  return node.kind === "contact" && node.half.id !== "device" && isPermittedAt(node.connector, "adapter");
}

/** The methods without an adapter that make sense to judge at a node. */
function methodsAt({ node }: NumberedNode): readonly Method[] {
  switch (node.kind) {
    case "stud":
      return ["tip", "clip"];
    case "splice":
      return ["pierce"];
    case "open-end":
    case "inner":
      return [];
    case "contact": {
      if (node.half.id === "device") return ["front-probe"];
      const screw: readonly Method[] = isPermittedAt(node.connector, "screw") ? ["screw"] : [];
      return [...screw, "front-probe", "back-probe", "tip-in-socket"];
    }
  }
}

/** The test windows at a node: one for each fuse with windows that ends there. */
export function fusesAtNode(index: SafetyIndex, at: NumberedNode): readonly Contact[] {
  const { offsets, arcEdges } = index.harness.index;
  const fuses: Contact[] = [];
  for (let arc = offsets[at.number] ?? 0; arc < (offsets[at.number + 1] ?? 0); arc++) {
    const number = arcEdges[arc] ?? -1;
    const edge = index.harness.edges[number];
    const fuse = edge && contactAtFuse(index, at, { number, edge });
    if (fuse) fuses.push(fuse);
  }
  return fuses;
}
