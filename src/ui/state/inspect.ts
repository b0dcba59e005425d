import { formatCrossSectionMm2, formatLengthMm, formatMinutes, formatNumber } from "../../base/index.ts";
import { wireEnds } from "../../drawing/index.ts";
import type { Connector, ConnectorSide, Harness, Hazard } from "../../harness-model/index.ts";
import type { Item, ItemFacts, PartFacts } from "../../connectivity/index.ts";
import { describeItem, sideKey, PART_WORDS } from "../../application/index.ts";
import { SIDE_NAMES } from "./words.ts";

/** A face to be shown: a side of a connector, and the cavity in question if there is one. */
export interface FaceToShow {
  readonly connector: Connector;
  readonly cavity?: string;
}

/** A hazard at the location of the item or on its route. */
export interface HazardHere {
  readonly zone: string;
  readonly hazard: Hazard;
  /** It holds in the chosen state, as far as the document says. */
  readonly isNow: boolean;
}

/** What the panel shows of a selected item. */
export interface Inspection {
  readonly facts: ItemFacts;
  readonly rows: readonly (readonly [string, string])[];
  readonly faces: readonly FaceToShow[];
  /** Items to go on to: wires at it, its ends, its connectors. */
  readonly near: readonly ItemFacts[];
  readonly hazards: readonly HazardHere[];
}

/** Gathers what there is to see of an item; undefined where this build has no such item. */
export function inspect(harness: Harness, item: Item, state: string | undefined): Inspection | undefined {
  if (!isFitted(harness, item)) return undefined;
  const facts = describeItem(harness, item);
  return {
    facts,
    rows: rowsOf(harness, facts),
    faces: facesOf(harness, item),
    near: nearItems(harness, item).map((near) => describeItem(harness, near)),
    hazards: hazardsOf(harness, facts, state),
  };
}

function isFitted(harness: Harness, { type, id }: Item): boolean {
  const { fitted, book } = harness;
  switch (type) {
    case "wire":
      return fitted.wires.has(id);
    case "splice":
      return fitted.splices.has(id);
    case "stud":
      return fitted.terminalStuds.has(id);
    case "component":
      return fitted.components.has(id);
    case "connector":
      return fitted.connectors.has(id);
    case "contact": {
      const connector = connectorOf(harness, id);
      return connector !== undefined && book.cavities.get(connector)?.has(cavityOf(id)) === true;
    }
    case "segment":
      return harness.segments.has(id);
    case "element":
    case "zone":
    case "net":
    case "code":
    case "inner":
    case "open-end":
      return true;
  }
}

function connectorOf(harness: Harness, id: string): Connector | undefined {
  const owner = id.includes(":") ? id.slice(0, id.lastIndexOf(":")) : id;
  const connector = harness.book.sides.get(owner)?.connector ?? harness.book.connectors.get(owner);
  return connector && harness.fitted.connectors.get(connector.id);
}

function cavityOf(id: string): string {
  return id.slice(id.lastIndexOf(":") + 1);
}

function rowsOf(harness: Harness, facts: ItemFacts): readonly (readonly [string, string])[] {
  const zone = harness.document.zones.find((each) => each.id === facts.zone)?.label;
  const component = harness.fitted.components.get(facts.component ?? "");
  const all: readonly (readonly [string, string | undefined])[] = [
    ["Colour", facts.colour === undefined ? undefined : `${facts.colour}, ${facts.colourName ?? ""}`],
    ["Conductor size", facts.crossSectionMm2 === undefined ? undefined : formatCrossSectionMm2(facts.crossSectionMm2)],
    ["Length", facts.lengthMm === undefined ? undefined : formatLengthMm(facts.lengthMm)],
    ["Net", facts.net],
    ["Harness", facts.harness],
    ["Wire number", facts.wireNumber],
    ["Wire type", facts.wireType],
    ["Parts", facts.parts?.map(partText).join("; ")],
    ["Route", facts.route?.join(", ")],
    ["Component", component && `${component.id}, ${component.label}`],
    ["Terminal", facts.terminalMm === undefined ? undefined : `${formatNumber(facts.terminalMm, 2)} mm`],
    ["Sealed", facts.isSealed === undefined ? undefined : facts.isSealed ? "yes" : "no"],
    ["Location", facts.position],
    ["Zone", zone],
    ["Time to reach", facts.minutes === undefined ? undefined : formatMinutes(facts.minutes)],
    ["Remove first", facts.remove],
    ["Note", harness.fitted.connectors.get(facts.connector ?? facts.id)?.note],
  ];
  return all.flatMap(([name, value]) => (value === undefined || value === "" ? [] : [[name, value] as const]));
}

/** A part in one line: what it is, its number, maker and description, and the side of the connector it is on. */
function partText({ what, side, number, maker, description }: PartFacts): string {
  const more = [maker, description, side === undefined ? undefined : (SIDE_NAMES.get(side) ?? `side ${side}`)].filter(
    (each) => each !== undefined,
  );
  return `${PART_WORDS[what]} ${number}${more.length === 0 ? "" : ` (${more.join(", ")})`}`;
}

/** The connectors whose faces show an item; none where it has no cavity. */
export function facesOf(harness: Harness, { type, id }: Item): readonly FaceToShow[] {
  if (type === "contact" || type === "connector") {
    const connector = connectorOf(harness, id);
    return connector ? [{ connector, ...(type === "contact" && { cavity: cavityOf(id) }) }] : [];
  }
  if (type !== "wire") return [];
  return (wireEnds(harness, id) ?? []).flatMap(({ node }) =>
    node.kind === "contact" ? [{ connector: node.connector, cavity: node.cavity.id }] : [],
  );
}

function nearItems(harness: Harness, { type, id }: Item): readonly Item[] {
  switch (type) {
    case "wire":
      return (wireEnds(harness, id) ?? []).map(({ node }): Item =>
        node.kind === "contact"
          ? { type: "contact", id: `${node.connector.id}:${node.cavity.id}` }
          : { type: node.kind, id: node.key },
      );
    case "splice":
    case "stud":
      return wiresAt(harness, [id]);
    case "contact": {
      const connector = connectorOf(harness, id);
      const sides = connector ? (harness.fitted.sides.get(connector.id) ?? []) : [];
      return connector
        ? wiresAt(
            harness,
            sides.map((side) => `${sideKey(connector, side)}:${cavityOf(id)}`),
          )
        : [];
    }
    case "component":
      return [
        ...[...harness.fitted.connectors.values()]
          .filter((each) => each.component === id)
          .map((each): Item => ({ type: "connector", id: each.id })),
        ...[...harness.fitted.terminalStuds.values()]
          .filter((each) => each.component === id)
          .map((each): Item => ({ type: "stud", id: each.id })),
      ];
    case "segment":
      return [...harness.fitted.wires.values()]
        .filter((wire) => wire.route?.some((segment) => segment === id))
        .map((wire): Item => ({ type: "wire", id: wire.id }));
    case "connector":
    case "element":
    case "zone":
    case "net":
    case "code":
    case "inner":
    case "open-end":
      return [];
  }
}

function wiresAt(harness: Harness, keys: readonly string[]): readonly Item[] {
  const { offsets, arcEdges } = harness.index;
  return keys.flatMap((key) => {
    const node = harness.nodeNumbers.get(key);
    if (node === undefined) return [];
    const wires: Item[] = [];
    for (let arc = offsets[node] ?? 0; arc < (offsets[node + 1] ?? 0); arc++) {
      const edge = harness.edges[arcEdges[arc] ?? -1];
      if (edge?.kind === "wire") wires.push({ type: "wire", id: edge.wire.id });
    }
    return wires;
  });
}

function hazardsOf(harness: Harness, facts: ItemFacts, state: string | undefined): readonly HazardHere[] {
  const segments = (facts.type === "segment" ? [facts.id] : (facts.route ?? [])).flatMap(
    (id) => harness.segments.get(id) ?? [],
  );
  const zones = new Set([facts.zone, ...segments.map((segment) => segment.zone)]);
  const here: HazardHere[] = [];
  const isNow = (hazard: Hazard): boolean =>
    hazard.states === undefined || hazard.states.some((each) => each === state);
  for (const zone of harness.document.zones) {
    if (!zones.has(zone.id)) continue;
    for (const hazard of zone.hazards ?? []) here.push({ zone: zone.label, hazard, isNow: isNow(hazard) });
  }
  for (const segment of segments)
    for (const hazard of segment.hazards ?? [])
      here.push({ zone: `Harness segment ${segment.id}`, hazard, isNow: isNow(hazard) });
  return here;
}

/** The sides of a connector that are fitted, the one wires end in first. */
export function sidesToShow(harness: Harness, connector: Connector): readonly ConnectorSide[] {
  const sides = harness.fitted.sides.get(connector.id) ?? [];
  return sides.toSorted((a, b) => Number(a.id === "device") - Number(b.id === "device"));
}

/** What a side of a connector is called on a button. */
export function sideWords(connector: Connector, side: ConnectorSide): string {
  return side.label ?? SIDE_NAMES.get(side.id) ?? sideKey(connector, side);
}
