import { isPermittedAt, type Adapter, type HarnessNode, type Segment } from "../harness-model/index.ts";
import type { Contact, NumberedEdge, NumberedNode } from "./findings.ts";
import { accessOf, reachingOf } from "./reaching.ts";
import type { Method } from "./rule.ts";
import type { SafetyIndex } from "./safety-index.ts";

/**
 * One method at one node.
 *
 * @param how The method, and the adapter it goes through.
 */
export function contactAtNode(
  index: SafetyIndex,
  { number, node }: NumberedNode,
  how: { readonly method: Method; readonly adapter?: Adapter },
): Contact {
  const socket = node.kind === "contact" ? node : undefined;
  const owner = node.kind === "contact" ? node.connector : node.kind === "stud" ? node.stud : undefined;
  const component = node.kind === "inner" ? node.component.id : owner?.component;
  const zone =
    node.kind === "splice"
      ? zoneOfSplice(index, node.splice)
      : (owner?.zone ?? (owner ? undefined : zoneOf(index, component)));
  const states = owner ? accessOf(index.harness, owner)?.states : "any";
  const extraMinutes = how.adapter?.minutes;
  return {
    method: how.method,
    place: node.kind,
    item: { type: node.kind, id: node.key },
    node: number,
    edge: undefined,
    socket,
    component,
    adapter: how.adapter,
    near: undefined,
    reaching: reachingOf(index, { access: owner?.access, states, zone, component, extraMinutes }),
  };
}

function zoneOf(index: SafetyIndex, component: string | undefined): string | undefined {
  return component === undefined ? undefined : index.harness.book.components.get(component)?.zone;
}

function zoneOfSplice(
  index: SafetyIndex,
  splice: Extract<HarnessNode, { kind: "splice" }>["splice"],
): string | undefined {
  return splice.zone ?? (splice.at && index.harness.segments.get(splice.at.segment)?.zone);
}

/** A method at one side of a fuse, if the edge is a fuse with test windows. */
function contactAtFuse(index: SafetyIndex, at: NumberedNode, { number, edge }: NumberedEdge): Contact | undefined {
  if (edge.kind !== "element" || edge.element.kind !== "fuse" || !edge.element.testWindows) return undefined;
  const { component } = edge;
  return {
    method: "fuse-window",
    place: "fuse",
    item: { type: "element", id: edge.key },
    node: at.number,
    edge: number,
    socket: undefined,
    component: component.id,
    adapter: undefined,
    near: undefined,
    reaching: reachingOf(index, { states: "any", zone: component.zone, component: component.id }),
  };
}

/**
 * A method on a wire, once for each zone and each segment with dangers of its own that it runs through, and once near each stud it ends at:
 * one stretch may be near the fan and the next not. Without a known route near any end, at a place that is then not known.
 *
 * @param wire The wire; any other edge gives nothing.
 * @param method `clamp` or `pierce`.
 */
export function contactsOnWire(index: SafetyIndex, wire: NumberedEdge, method: Method): readonly Contact[] {
  const { edge, number } = wire;
  if (edge.kind !== "wire") return [];
  const common = {
    method,
    place: "wire",
    item: { type: "wire", id: edge.key },
    node: undefined,
    edge: number,
    socket: undefined,
    component: undefined,
    adapter: undefined,
  } as const;
  const segments = stretches(index, edge.wire.route ?? []).map((segment) => {
    const { id, zone, hazards } = segment;
    const reaching = reachingOf(index, { states: "any", zone, hazards, isPlaceUnknown: hazards === undefined });
    return { ...common, near: id, reaching };
  });
  const ends = endsOf(index, number).flatMap((end) => {
    // A connector may have one side in calm air and the other beside the rockers: only a stud tells where the wire at it lies.
    const isTold = end.node.kind === "stud";
    if (!isTold && segments.length > 0) return [];
    const { reaching } = contactAtNode(index, end, { method });
    const isPlaceUnknown = reaching.isPlaceUnknown || !isTold;
    const near = { ...reaching, isEstimated: true, states: "any" as const, isPlaceUnknown };
    return [{ ...common, near: end.node.key, reaching: near }];
  });
  return [...segments, ...ends];
}

/** The segments of a route that differ in zone or dangers; of those that do not, the first. */
function stretches({ harness }: SafetyIndex, route: readonly string[]): readonly Segment[] {
  const kept = new Map<string, Segment>();
  for (const id of route) {
    const segment = harness.segments.get(id);
    if (!segment) continue;
    const key = segment.hazards ? `segment ${id}` : `zone ${segment.zone ?? ""}`;
    if (!kept.has(key)) kept.set(key, segment);
  }
  return [...kept.values()];
}

function endsOf({ harness }: SafetyIndex, edge: number): readonly NumberedNode[] {
  return [harness.index.from[edge] ?? -1, harness.index.to[edge] ?? -1].flatMap((number) => {
    const node = harness.nodes[number];
    return node ? [{ number, node }] : [];
  });
}

/** Which method each kind of adapter serves. */
const ADAPTER_METHODS = {
  "in-line": "in-line",
  mating: "mating-adapter",
  "relay-extension": "relay-extension",
} as const satisfies Record<string, Method>;

/** Nodes and edges that contacts are wanted at, by number. */
interface Places {
  readonly nodes: Iterable<number>;
  readonly edges: Iterable<number>;
}

/**
 * Every way of taking a reading worth judging at some nodes and wires: what the trade uses there, and what people are tempted by. Which of
 * it is allowed is for the rules to say.
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
  return node.kind === "contact" && node.side.id !== "device" && isPermittedAt(node.connector, "adapter");
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
      if (node.side.id === "device") return ["front-probe"];
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
