import { naturalOrder } from "../../base/index.ts";
import type { Harness, Hazard, Segment, Wire } from "../../harness-model/index.ts";
import type { DrillDraft, DrillMaker } from "./drill-maker.ts";

/** Where does this wire run? */
export const routeDrills: DrillMaker = {
  kind: "route",
  starts: routedWires,
  make: (harness, id) => {
    const way = wayOf(harness, id);
    if (!way) return undefined;
    const segments = way.segments.map((segment) => segment.id);
    const colour = way.wire.colour === undefined ? "" : ` (${way.wire.colour})`;
    return {
      question: `Where does wire ${id}${colour} run from ${way.wire.ends[0]} to ${way.wire.ends[1]}? Select every segment.`,
      about: [{ type: "wire", id }],
      context: { kind: "drawing", lit: [] },
      what: "segment",
      isMany: true,
      accepted: [segments],
      pool: neighbours(harness, way.segments),
      why: way.segments.map((segment) => `${segment.id} is the segment from ${segment.from} to ${segment.to}.`),
      points: segments.length + lookAlikes(harness, way.wire),
    };
  },
};

/** Which zones does this wire pass? */
export const zoneDrills: DrillMaker = {
  kind: "zones",
  starts: routedWires,
  make: (harness, id) => {
    const way = wayOf(harness, id);
    const zones = [...new Set(way?.segments.flatMap((segment) => segment.zone ?? []) ?? [])];
    if (!way || zones.length === 0 || harness.document.zones.length < 2) return undefined;
    const { document } = harness;
    return {
      question: `Through which zones does wire ${id} run from ${way.wire.ends[0]} to ${way.wire.ends[1]}? Select every zone.`,
      about: [{ type: "wire", id }],
      context: { kind: "drawing", lit: [{ type: "wire", id }] },
      what: "zone",
      isMany: true,
      accepted: [zones],
      pool: document.zones.map((zone) => zone.id),
      why: zones.map((zone) => {
        const label = document.zones.find((each) => each.id === zone)?.label ?? zone;
        const inside = way.segments.filter((segment) => segment.zone === zone).map((segment) => segment.id);
        return `${zone} (${label}): segment ${inside.join(", ")}.`;
      }),
      points: 2 * zones.length + Math.min(2, way.segments.length - zones.length),
    };
  },
};

/** Which segments of its route have this hazard? */
export const hazardDrills: DrillMaker = {
  kind: "hazards",
  starts: (harness) =>
    routedWires(harness).filter(
      (id) => (wayOf(harness, id)?.segments.length ?? 0) > 1 && dangersOf(harness, id).length > 0,
    ),
  draw: (harness, id, random) => {
    const kinds = dangersOf(harness, id);
    return kinds.length === 0 ? undefined : `${id} ${random.pick(kinds)}`;
  },
  make: (harness, subject) => {
    const [id = "", kind = ""] = subject.split(" ");
    const way = wayOf(harness, id);
    // On a way of one segment there is nothing to choose.
    if (!way || way.segments.length < 2) return undefined;
    const dangerous = way.segments.flatMap((segment) => {
      const hazard = hazardsOf(harness, segment).find((each) => each.kind === kind);
      return hazard ? [{ segment: segment.id, text: hazard.text }] : [];
    });
    if (dangerous.length === 0) return undefined;
    return {
      question: `Wire ${id} runs through ${way.segments.length} segments. Which of them have the hazard "${kind.replaceAll("-", " ")}" in the harness data? Count hazards of the segment and of its zone, in every state. Select every segment.`,
      about: [{ type: "wire", id }],
      context: { kind: "drawing", lit: [{ type: "wire", id }] },
      what: "segment",
      isMany: true,
      accepted: [dangerous.map((each) => each.segment)],
      pool: way.segments.map((segment) => segment.id),
      why: dangerous.map((each) => `${each.segment}: ${each.text}.`),
      points: Math.max(1, Math.floor(way.segments.length / 2)) + dangerous.length,
    };
  },
};

interface WireRoute {
  readonly wire: Wire;
  readonly segments: readonly Segment[];
}

function routedWires(harness: Harness): readonly string[] {
  const wires = [...harness.fitted.wires.values()].filter((wire) => (wire.route?.length ?? 0) > 0);
  return wires.map((wire) => wire.id).sort(naturalOrder);
}

function wayOf(harness: Harness, id: string): WireRoute | undefined {
  const wire = harness.fitted.wires.get(id);
  const segments = [...new Set(wire?.route ?? [])].flatMap((each) => harness.segments.get(each) ?? []);
  return wire && segments.length > 0 ? { wire, segments } : undefined;
}

function hazardsOf(harness: Harness, segment: Segment): readonly Hazard[] {
  const zone = harness.document.zones.find((each) => each.id === segment.zone);
  return [...(segment.hazards ?? []), ...(zone?.hazards ?? [])];
}

function dangersOf(harness: Harness, id: string): readonly string[] {
  const segments = wayOf(harness, id)?.segments ?? [];
  return [...new Set(segments.flatMap((each) => hazardsOf(harness, each)).map((each) => each.kind))].sort(naturalOrder);
}

/** Segments of the way and all that branch off it: the turns one may take by mistake. */
function neighbours(harness: Harness, way: readonly Segment[]): readonly string[] {
  const places = new Set(way.flatMap((segment) => [segment.from, segment.to]));
  return harness.document.segments.filter(({ from, to }) => places.has(from) || places.has(to)).map(({ id }) => id);
}

/** Wires of the same colour that begin in the same segment, 3 at most. */
function lookAlikes(harness: Harness, wire: Wire): DrillDraft["points"] {
  let count = 0;
  for (const other of harness.fitted.wires.values()) {
    const isAlike = other.id !== wire.id && other.colour !== undefined && other.colour === wire.colour;
    if (isAlike && other.route?.[0] === wire.route?.[0] && ++count === 3) break;
  }
  return count;
}
