import { importProblem } from "../import-problem.ts";
import type { ConnectorInput } from "./draft-types.ts";
import type { DraftParts } from "./draft-parts.ts";
import { layOutCavities } from "./lay-out-cavities.ts";
import type { LooseConnector } from "./loose-connector.ts";

const LAYOUT_NOTE = "Face not known: cavities are drawn in order of their numbers.";

/**
 * Completes the connectors of a draft: halves and a component for device connectors, a face, places of cavities, what is permitted.
 * Each sort of assumption is reported once, with a count.
 */
export function completeConnectors(parts: DraftParts): ConnectorInput[] {
  const known = new Set(parts.components.map((component) => component.id));
  const before = known.size;
  let layouts = 0;
  const connectors = parts.connectors.map((loose) => {
    const kind = loose.kind ?? (loose.halves.length > 0 && !hasHalf(loose, "device") ? "inline" : "device");
    const halves = completeHalves(loose, kind);
    const isOfDevice = halves.some((half) => half.id === "device");
    const component = loose.component ?? (isOfDevice ? componentOf(loose, parts, known) : undefined);
    const { cavities, isAssumed } = placedCavities(loose, parts);
    const isFaceAssumed = isAssumed || loose.face === undefined;
    if (isFaceAssumed) layouts += 1;
    const made: ConnectorInput = {
      ...loose,
      kind,
      halves,
      ...(component === undefined ? {} : { component }),
      face: loose.face ?? assumedFace(halves[0]?.id ?? "harness"),
      cavities,
      ...(isFaceAssumed && loose.note === undefined ? { note: LAYOUT_NOTE } : {}),
    };
    movePlace(parts, loose, made);
    return made;
  });
  const components = known.size - before;
  if (layouts > 0) parts.problems.push(importProblem("layout-assumed", {}, { connectors: layouts }));
  if (components > 0) parts.problems.push(importProblem("component-assumed", {}, { components }));
  return connectors;
}

/** The component that a connector of a device belongs to: the one its id begins with, if there is one, else a new one. */
function componentOf(connector: LooseConnector, parts: DraftParts, known: Set<string>): string {
  const owner = ownerOf(connector.id);
  if (owner !== undefined && known.has(owner)) return owner;
  const { id } = parts.ids.give("component", owner ?? `${connector.id}-unit`);
  known.add(id);
  const made = {
    id,
    label: connector.label === connector.id ? id : connector.label,
    kind: "other" as const,
    elements: [],
    ...(connector.zone === undefined ? {} : { zone: connector.zone }),
    ...(connector.when === undefined ? {} : { when: connector.when }),
  };
  parts.components.push(made);
  movePlace(parts, connector, made);
  return id;
}

function placedCavities(connector: LooseConnector, parts: DraftParts): ReturnType<typeof layOutCavities> {
  const laid = layOutCavities(connector.cavities);
  const before = new Map(connector.cavities.map((cavity) => [cavity.id, cavity]));
  for (const cavity of laid.cavities) movePlace(parts, before.get(cavity.id), cavity);
  return laid;
}

/** What is made of a thing stands where that stood in the file. */
function movePlace(parts: DraftParts, from: object | undefined, to: object): void {
  const place = from && parts.found.get(from);
  if (place) parts.found.set(to, place);
}

function hasHalf(connector: LooseConnector, id: string): boolean {
  return connector.halves.some((half) => half.id === id);
}

function completeHalves(connector: LooseConnector, kind: ConnectorInput["kind"]): ConnectorInput["halves"] {
  if (kind === "device" || connector.halves.length === 0) {
    const missing = ["harness", "device"].filter((id) => !hasHalf(connector, id));
    return [...connector.halves, ...missing.map((id) => ({ id }))];
  }
  return connector.halves;
}

/** The part of an id before its last dot: the component of a connector by the usual way of naming. */
function ownerOf(id: string): string | undefined {
  const dot = id.lastIndexOf(".");
  return dot > 0 ? id.slice(0, dot) : undefined;
}

function assumedFace(ofHalf: string): ConnectorInput["face"] {
  return { view: "wire-side", ofHalf, shape: "rectangular", latch: "none", key: "none" };
}
