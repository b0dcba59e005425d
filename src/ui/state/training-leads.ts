import { sideKey, leadOffers } from "../../application/index.ts";
import { cavityContents } from "../../drawing/index.ts";
import type { Connector, Harness } from "../../harness-model/index.ts";
import type { ExerciseState, LeadOffer } from "../../training/index.ts";
import type { ExerciseEvent } from "../../job-records/index.ts";
import type { Item } from "../../connectivity/index.ts";

type Lead = Extract<ExerciseEvent, { kind: "measure" }>["red"];

/** A lead that is being placed: the item looked for, the point of it, the method. */
export interface LeadDraft {
  readonly text: string;
  readonly item: Item | undefined;
  readonly point: string;
  /** Key of the method among those that are offered; empty while none is chosen. */
  readonly way: string;
}

/** A lead that is not placed. */
export const EMPTY_LEAD: LeadDraft = { text: "", item: undefined, point: "", way: "" };

/** A point a lead might go to. */
export interface LeadPoint {
  readonly point: string;
  readonly label: string;
}

/** The points of an item: of a connector its cavities on both sides, of a wire itself and its ends, of a component what belongs to it. */
export function pointsOf(harness: Harness, { type, id }: Item): readonly LeadPoint[] {
  const { fitted } = harness;
  switch (type) {
    case "contact": {
      const colon = id.lastIndexOf(":");
      const connector = connectorOf(harness, id.slice(0, colon));
      return connector ? cavityPoints(harness, connector, id.slice(colon + 1)) : [];
    }
    case "connector": {
      const connector = fitted.connectors.get(id);
      return connector ? connector.cavities.flatMap((cavity) => cavityPoints(harness, connector, cavity.id)) : [];
    }
    case "stud":
    case "splice":
      return harness.nodeNumbers.has(id) ? [{ point: id, label: `${id}, the ${type} itself` }] : [];
    case "wire":
      return fitted.wires.has(id)
        ? [{ point: id, label: `${id}, the wire itself` }, ...endPoints(harness, id, "one end")]
        : [];
    case "component": {
      const own = [...fitted.connectors.values()].filter((each) => each.component === id);
      const terminalStuds = [...fitted.terminalStuds.values()].filter((each) => each.component === id);
      return [
        ...terminalStuds.flatMap((stud) => pointsOf(harness, { type: "stud", id: stud.id })),
        ...own.flatMap((connector) => pointsOf(harness, { type: "connector", id: connector.id })),
      ];
    }
    case "element":
      return endPoints(harness, id, `one side of ${id}`);
    case "segment":
    case "zone":
    case "net":
    case "code":
    case "inner":
    case "open-end":
      return [];
  }
}

/** The methods for a lead on its point in the present state of the machine, safe and unsafe alike. */
export function waysOf(
  exercise: ExerciseState,
  { point }: LeadDraft,
): readonly (LeadOffer & { readonly key: string })[] {
  return point === "" ? [] : leadOffers(exercise, point).map((offer) => ({ ...offer, key: wayKey(offer.lead) }));
}

/** The lead as it is placed; undefined while something of it is missing. */
export function leadOf(exercise: ExerciseState, draft: LeadDraft): Lead | undefined {
  return waysOf(exercise, draft).find(({ key }) => key === draft.way)?.lead;
}

/** A draft for an item: its point where there is only one to choose. */
export function draftOf(harness: Harness, item: Item): LeadDraft {
  const points = pointsOf(harness, item);
  const only = points.length === 1 || item.type === "wire" ? points[0] : undefined;
  return { text: item.id, item, point: only?.point ?? "", way: "" };
}

function wayKey({ method, adapter }: Lead): string {
  return adapter === undefined ? method : `${method} ${adapter}`;
}

function connectorOf({ book, fitted }: Harness, name: string): Connector | undefined {
  return fitted.connectors.get(name) ?? book.sides.get(name)?.connector;
}

function cavityPoints(harness: Harness, connector: Connector, cavity: string): readonly LeadPoint[] {
  const sides = harness.fitted.sides.get(connector.id) ?? [];
  return sides.flatMap((side) => {
    const point = `${sideKey(connector, side)}:${cavity}`;
    if (!harness.nodeNumbers.has(point)) return [];
    const wires = cavityContents(harness, connector, side).get(cavity)?.wires ?? [];
    const own = wires.map((wire) => `${wire.id} ${wire.mark.letters}`).join(", ");
    return [{ point, label: own === "" ? point : `${point}, ${own}` }];
  });
}

/** What a wire ends in, or what a fuse or another part inside lies between. */
function endPoints(harness: Harness, edgeKey: string, words: string): readonly LeadPoint[] {
  const edge = harness.edgeNumbers.get(edgeKey);
  if (edge === undefined) return [];
  const ends = [harness.index.from[edge] ?? -1, harness.index.to[edge] ?? -1];
  return ends.flatMap((number) => {
    const key = harness.nodes[number]?.key;
    return key === undefined ? [] : [{ point: key, label: `${key}, ${words}` }];
  });
}
