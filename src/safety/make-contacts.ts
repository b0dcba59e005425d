import type { Adapter, HarnessNode, Segment } from "../model/index.ts";
import type { Contact, NumberedEdge, NumberedNode } from "./contact.ts";
import type { Method } from "./method.ts";
import { accessOf, reachingOf } from "./reaching.ts";
import type { SafetyIndex } from "./safety-index.ts";

/**
 * One method at one node.
 *
 * @param index The index.
 * @param at The node.
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
export function contactAtFuse(
  index: SafetyIndex,
  at: NumberedNode,
  { number, edge }: NumberedEdge,
): Contact | undefined {
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
 * A method on a wire, once for each zone and each segment with dangers of its own that it runs through, and once near each stud it ends
 * at: one stretch may be near the fan and the next not. Without a known route near any end, at a place that is then not known.
 *
 * @param index The index.
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
