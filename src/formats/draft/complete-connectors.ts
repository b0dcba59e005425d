import { importProblem } from "../import-problem.ts";
import type { ConnectorInput } from "./draft-types.ts";
import type { DraftParts } from "./harness-draft.ts";
import { layOutCavities, type LooseCavity } from "./lay-out-cavities.ts";

/** A connector of which not everything may be known yet. */
export type LooseConnector = Pick<ConnectorInput, "id" | "label" | "halves"> &
  Partial<Omit<ConnectorInput, "id" | "label" | "halves" | "cavities">> & { cavities: LooseCavity[] };

const LAYOUT_NOTE = "Face not known: cavities are drawn in order of their numbers.";

/**
 * Completes the connectors of a draft: halves and a component for device connectors, a face, places of cavities, what is permitted.
 * Each sort of assumption is reported once, with a count.
 */
export function completeConnectors(parts: DraftParts): ConnectorInput[] {
  const known = new Set(parts.components.map((component) => component.id));
  const count = { layouts: 0, components: 0 };
  const connectors = parts.connectors.map((loose) => {
    const kind = loose.kind ?? (loose.halves.length > 0 && !hasHalf(loose, "device") ? "inline" : "device");
    const halves = completeHalves(loose, kind);
    let { component } = loose;
    if (component === undefined && halves.some((half) => half.id === "device")) {
      const owner = ownerOf(loose.id);
      if (owner !== undefined && known.has(owner)) component = owner;
      else {
        component = parts.ids.give("component", owner ?? `${loose.id}-unit`).id;
        known.add(component);
        count.components += 1;
        const label = loose.label === loose.id ? component : loose.label;
        const place = parts.found.get(loose);
        const made = {
          id: component,
          label,
          kind: "other" as const,
          elements: [],
          ...(loose.zone === undefined ? {} : { zone: loose.zone }),
          ...(loose.when === undefined ? {} : { when: loose.when }),
        };
        parts.components.push(made);
        if (place) parts.found.set(made, place);
      }
    }
    const { cavities, isAssumed } = layOutCavities(loose.cavities);
    const places = new Map(loose.cavities.map((cavity) => [cavity.id, parts.found.get(cavity)]));
    for (const cavity of cavities) {
      const place = places.get(cavity.id);
      if (place) parts.found.set(cavity, place);
    }
    const isFaceAssumed = isAssumed || loose.face === undefined;
    if (isFaceAssumed) count.layouts += 1;
    const made: ConnectorInput = {
      ...loose,
      kind,
      halves,
      ...(component === undefined ? {} : { component }),
      face: loose.face ?? assumedFace(halves[0]?.id ?? "harness"),
      cavities,
      sealed: loose.sealed ?? true,
      permits: loose.permits ?? ["unplug", "front-probe"],
      ...(isFaceAssumed && loose.note === undefined ? { note: LAYOUT_NOTE } : {}),
    };
    const place = parts.found.get(loose);
    if (place) parts.found.set(made, place);
    return made;
  });
  if (count.layouts > 0) parts.problems.push(importProblem("layout-assumed", {}, { connectors: count.layouts }));
  if (count.components > 0)
    parts.problems.push(importProblem("component-assumed", {}, { components: count.components }));
  return connectors;
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
