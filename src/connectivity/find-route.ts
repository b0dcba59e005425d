import type { Hazard, Harness } from "../harness-model/index.ts";

/** One segment that a part of the harness runs through. */
interface RouteStep {
  readonly segment: string;
  readonly from: string;
  readonly to: string;
  readonly lengthMm: number;
  readonly zone: string | undefined;
  readonly covering: string | undefined;
  readonly clips: string | undefined;
  readonly hazards: readonly Hazard[];
  /** The wires of the part that run here. */
  readonly wires: readonly string[];
}

/** A zone that is passed, with its own hazards. */
interface ZonePassed {
  readonly zone: string;
  readonly label: string;
  readonly hazards: readonly Hazard[];
}

/** Where a part of the harness runs. */
interface RouteAnswer {
  readonly kind: "route";
  readonly steps: readonly RouteStep[];
  readonly zones: readonly ZonePassed[];
  /** Wires of the part whose way the document does not say. */
  readonly unrouted: readonly string[];
}

/**
 * Where wires run: segments in order of the part, each with the wires in it, and the zones passed, with the hazards of both.
 *
 * @param edges Edge numbers, in the order of the answer; others than wires are passed over.
 */
export function findRoute(harness: Harness, edges: Iterable<number>): RouteAnswer {
  const wiresIn = new Map<string, string[]>();
  const unrouted: string[] = [];
  const zoneIds = new Set<string>();
  for (const number of edges) {
    const edge = harness.edges[number];
    if (edge?.kind === "mating" && edge.connector.zone !== undefined) zoneIds.add(edge.connector.zone);
    if (edge?.kind !== "wire") continue;
    if (edge.wire.route === undefined || edge.wire.route.length === 0) unrouted.push(edge.wire.id);
    for (const id of edge.wire.route ?? []) {
      const wires = wiresIn.get(id) ?? [];
      wires.push(edge.wire.id);
      wiresIn.set(id, wires);
      const zone = harness.segments.get(id)?.zone;
      if (zone !== undefined) zoneIds.add(zone);
    }
  }
  const steps = [...wiresIn].flatMap(([id, wires]): RouteStep[] => {
    const segment = harness.segments.get(id);
    if (!segment) return [];
    const { from, to, lengthMm, zone, covering, clips, hazards = [] } = segment;
    return [{ segment: id, from, to, lengthMm, zone, covering, clips, hazards, wires }];
  });
  const zones = harness.document.zones
    .filter((zone) => zoneIds.has(zone.id))
    .map((zone) => ({ zone: zone.id, label: zone.label, hazards: zone.hazards ?? [] }));
  return { kind: "route", steps, zones, unrouted };
}
