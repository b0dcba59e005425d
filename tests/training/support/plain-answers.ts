import {
  endAddresses,
  type Connector,
  type ConnectorSide,
  type Harness,
  type HarnessDocument,
} from "ohmward/harness-model";
import type { Drill } from "ohmward/training";
import { findCommon, findOpenEffect, resolve, type Resolved } from "ohmward/connectivity";

type Wire = HarnessDocument["wires"][number];

/**
 * The right answers to a drill, worked out from the document by other ways than the drill was made: addresses are read as texts and wires
 * walked as lists, with no graph; only what circuits share and what stops is asked of the graph questions themselves. One id each where
 * one is wanted, otherwise the whole set.
 */
export function plainAnswers(harness: Harness, drill: Drill): readonly (readonly string[])[] {
  const rest = drill.id.slice(drill.kind.length + 1).split(" ");
  const [first = "", second = ""] = rest;
  switch (drill.kind) {
    case "route":
      return [wireOf(harness, first).route ?? []];
    case "zones":
      return [segmentsOf(harness, first).flatMap((segment) => segment.zone ?? [])];
    case "hazards":
      return [
        segmentsOf(harness, first)
          .filter((segment) => hasHazard(harness, segment.id, second))
          .map(({ id }) => id),
      ];
    case "next-connector":
      return [connectorsNext(harness, first)];
    case "cavity":
      return cavities(harness, rest).map((id) => [id]);
    case "colour":
      return [coloursBehind(harness, first, second)];
    case "splice":
      return harness.document.segments.filter(({ id }) => holdsSplice(harness, first, id)).map(({ id }) => [id]);
    case "common":
      return [shared(harness, rest)];
    case "effect":
      return [stopped(harness, first)];
  }
}

function wiresOf(harness: Harness): readonly Wire[] {
  return harness.document.wires.filter((wire) => harness.fitted.wires.has(wire.id));
}

function wireOf(harness: Harness, id: string): Wire {
  const wire = wiresOf(harness).find((each) => each.id === id);
  if (!wire) throw new Error(`No wire ${id}`);
  return wire;
}

function segmentsOf(harness: Harness, wire: string): readonly HarnessDocument["segments"][number][] {
  const route = new Set<string>(wireOf(harness, wire).route ?? []);
  return harness.document.segments.filter((segment) => route.has(segment.id));
}

function hasHazard(harness: Harness, segmentId: string, kind: string): boolean {
  const segment = harness.document.segments.find((each) => each.id === segmentId);
  const zone = harness.document.zones.find((each) => each.id === segment?.zone);
  return [...(segment?.hazards ?? []), ...(zone?.hazards ?? [])].some((hazard) => hazard.kind === kind);
}

/** Where an end of a wire lies: a connector half with its cavity, or the id of a splice or stud. */
interface End {
  readonly connector?: Connector;
  readonly side?: ConnectorSide;
  readonly cavity?: string;
  readonly id: string;
}

const knownEnds = new WeakMap<Harness, Map<string, End>>();

function endOf(harness: Harness, address: string): End {
  const ends = knownEnds.get(harness) ?? new Map<string, End>();
  knownEnds.set(harness, ends);
  const end = ends.get(address) ?? readEnd(harness, address);
  ends.set(address, end);
  return end;
}

function readEnd(harness: Harness, address: string): End {
  const colon = address.lastIndexOf(":");
  if (colon < 0) return { id: address };
  const owner = address.slice(0, colon);
  const cavity = address.slice(colon + 1);
  for (const connector of harness.document.connectors) {
    for (const side of connector.sides) {
      const isUsual = owner === connector.id && (side.id === "harness" || connector.sides.length === 1);
      if (owner === side.name || owner === `${connector.id}.${side.id}` || isUsual) {
        return { connector, side, cavity, id: `${side.name ?? `${connector.id}.${side.id}`}:${cavity}` };
      }
    }
  }
  throw new Error(`No point ${address}`);
}

function endIds(harness: Harness, wire: Wire): readonly string[] {
  return endAddresses(wire).map((end) => endOf(harness, end).id);
}

function connectorsNext(harness: Harness, start: string): readonly string[] {
  const isSplice = (id: string): boolean => harness.document.splices.some((splice) => splice.id === id);
  const wires = wiresOf(harness);
  const used = new Set<Wire>();
  const found = new Set<string>();
  const waiting = [start];
  for (let at = waiting.pop(); at !== undefined; at = waiting.pop()) {
    for (const wire of wires.filter((each) => !used.has(each) && endIds(harness, each).includes(at))) {
      used.add(wire);
      for (const end of endAddresses(wire).map((each) => endOf(harness, each))) {
        if (end.id === at || end.id === start) continue;
        if (isSplice(end.id)) waiting.push(end.id);
        else if (end.connector) found.add(end.connector.id);
      }
    }
  }
  return [...found];
}

function coloursBehind(harness: Harness, joint: string, from: string): readonly string[] {
  const isSplice = harness.document.splices.some((splice) => splice.id === joint);
  const own = isSplice ? undefined : endOf(harness, joint);
  const others = wiresOf(harness).filter((wire) =>
    endAddresses(wire).some((each) => {
      const end = endOf(harness, each);
      if (isSplice) return end.id === joint && wire.id !== from;
      return end.connector === own?.connector && end.cavity === own?.cavity && end.side?.id !== own?.side?.id;
    }),
  );
  return others.flatMap((wire) => wire.colour ?? []);
}

/** The cavity under a place of the face, by turning the document's own grid over where the view asks for it. */
function cavities(
  harness: Harness,
  [id = "", sideId = "", view = "", form = "", wanted = ""]: readonly string[],
): readonly string[] {
  const connector = harness.document.connectors.find((each) => each.id === id);
  const side = connector?.sides.find((each) => each.id === sideId);
  if (!connector || !side) return [];
  if (form === "wire") {
    const wires = wiresOf(harness).filter((wire) => wire.id === wanted);
    const ends = wires.flatMap((wire) => endAddresses(wire).map((end) => endOf(harness, end)));
    const isDevice = side.id === "device";
    const here = ends.filter((end) => end.connector === connector && (isDevice || end.side === side));
    return [...new Set(here.flatMap((end) => end.cavity ?? []))];
  }
  const turns = Number(view !== connector.face.view) + Number(side.id !== connector.face.ofSide);
  const sign = turns % 2 === 1 ? -1 : 1;
  const place = connector.cavities.find((cavity) => cavity.id === wanted);
  const own = connector.cavities.filter((cavity) => side.cavities?.includes(cavity.id) ?? true);
  return own
    .filter((cavity) => sign * cavity.x === sign * (place?.x ?? NaN) && cavity.y === place?.y)
    .map((cavity) => cavity.id);
}

function holdsSplice(harness: Harness, spliceId: string, segmentId: string): boolean {
  const at = harness.document.splices.find((each) => each.id === spliceId)?.at;
  const own = harness.document.segments.find((each) => each.id === at?.segment);
  const segment = harness.document.segments.find((each) => each.id === segmentId);
  if (!at || !own || !segment) return false;
  if (segment === own) return true;
  // Distance of the splice from the place that the two segments share, if they do.
  const fromOwn = at.from === own.from ? at.offsetMm : own.lengthMm - at.offsetMm;
  const sharesFrom = segment.from === own.from || segment.to === own.from;
  const sharesTo = segment.from === own.to || segment.to === own.to;
  return (sharesFrom && fromOwn === 0) || (sharesTo && fromOwn === own.lengthMm);
}

function item(harness: Harness, id: string): Resolved {
  const found = resolve(harness, id);
  if (found.kind !== "one") throw new Error(`"${id}" is ${found.kind}`);
  return found.item;
}

function shared(harness: Harness, [first = "", second = "", sort = ""]: readonly string[]): readonly string[] {
  const marked = [first, second].map((id) => ({ item: item(harness, id), mark: "bad" as const }));
  const fuses = new Set(
    harness.document.components.flatMap((component) =>
      component.elements.filter((element) => element.kind === "fuse").map((element) => `${component.id}.${element.id}`),
    ),
  );
  const { items } = findCommon(harness, marked);
  return items.filter((item) => (sort === "fuse" ? fuses.has(item.id) : item.type === sort)).map((item) => item.id);
}

function stopped(harness: Harness, id: string): readonly string[] {
  const modules = new Set<string>(
    harness.document.components.filter(({ kind }) => kind === "module").map((each) => each.id),
  );
  return findOpenEffect(harness, item(harness, id)).stopped.flatMap(({ item, component }) => {
    if (item.type === "component") return [item.id];
    return component === undefined || modules.has(component) ? [] : [component];
  });
}
