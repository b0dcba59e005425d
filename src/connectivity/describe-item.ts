import { z } from "zod";
import type { Frozen } from "../base/index.ts";
import { describeColour, type Connector, type ConnectorSide, type Harness, type Part } from "../harness-model/index.ts";
import { edgeEnds, Item, jointId } from "./item.ts";

/** What is known of an item, as far as the document says it. Lengths in mm, cross-sections in mm², times in minutes. */
export const ItemFacts = Item.extend({
  label: z.string().describe("Label for people"),
  zone: z.string().optional().describe("Id of the zone of the machine"),
  component: z.string().optional().describe("Id of the component it belongs to"),
  colour: z.string().optional().describe("Colour code of the wire (IEC 60757), such as `GN/YE`"),
  colourName: z.string().optional().describe("Colour in words"),
  crossSectionMm2: z.number().optional().describe("Conductor size in mm²"),
  lengthMm: z.number().optional().describe("Length in mm"),
  net: z.string().optional().describe("Signal or net label"),
  harness: z.string().optional().describe("Name of the harness it belongs to"),
  wireNumber: z.string().optional().describe("Number of the wire as the data writes it"),
  wireType: z.string().optional().describe("Type of the wire, such as FLRY-B"),
  route: z.array(z.string()).optional().describe("Ids of the harness segments the wire runs through, in order"),
  ends: z.array(z.string()).optional().describe("Addresses the wire ends at"),
  connector: z.string().optional().describe("Id of the connector"),
  cavity: z.string().optional().describe("Id of the cavity"),
  terminalMm: z.number().optional().describe("Width of the terminal in mm"),
  cavityNote: z.string().optional().describe("Remark on the cavity"),
  isSealed: z.boolean().optional().describe("Whether the connector is sealed"),
  minutes: z.number().optional().describe("Time to reach it, in minutes"),
  remove: z.string().optional().describe("What to remove to reach it"),
  position: z.string().optional().describe("Position in words"),
  sort: z.string().optional().describe("Sort, in words"),
  parts: z
    .array(
      z.object({
        what: z.enum(["part", "wire", "housing", "terminal", "seal", "plug"]).describe("What the part is there"),
        side: z.string().optional().describe("Id of the side of the connector"),
        number: z.string().describe("Part number"),
        maker: z.string().optional().describe("Company whose part number it is"),
        description: z.string().optional().describe("Description in words"),
      }),
    )
    .optional()
    .describe("Its parts: function of each, side of the connector, part number and maker"),
});
export type ItemFacts = Frozen<z.infer<typeof ItemFacts>>;
/** A part of an item. */
export type PartFacts = NonNullable<ItemFacts["parts"]>[number];

/**
 * Gathers what the document says of an item.
 *
 * @returns Its facts; only the label, the id again, where nothing is known.
 */
export function describeItem(harness: Harness, item: Item): ItemFacts {
  const facts = factsOf(harness, item);
  const known = Object.entries(facts).filter(([, value]) => value !== undefined);
  return { type: item.type, id: item.id, label: item.id, ...(Object.fromEntries(known) as Partial<ItemFacts>) };
}

type Facts = { readonly [Key in keyof ItemFacts]?: ItemFacts[Key] | undefined };

function factsOf(harness: Harness, item: Item): Facts {
  const { fitted, document } = harness;
  switch (item.type) {
    case "wire":
      return wireFacts(harness, item.id);
    case "contact":
      return contactFacts(harness, item.id);
    case "splice": {
      const { at, label, zone, part } = fitted.splices.get(item.id) ?? {};
      return {
        label,
        zone,
        position: at && `${at.segment}, ${at.offsetMm} mm from ${at.from}`,
        parts: partsOf("part", part),
      };
    }
    case "stud": {
      const stud = fitted.terminalStuds.get(item.id);
      const { minutes, remove } = stud?.access ?? {};
      const parts = partsOf("part", stud?.part);
      const { label, zone, component, role: sort } = stud ?? {};
      return { label, zone, component, sort, minutes, remove, parts };
    }
    case "component": {
      const component = fitted.components.get(item.id);
      const parts = partsOf("part", component?.part);
      return { label: component?.label, zone: component?.zone, sort: component?.kind, parts };
    }
    case "element":
      return elementFacts(harness, item.id);
    case "connector": {
      const connector = harness.book.connectors.get(item.id);
      const parts = connector && sideParts(harness, connector, housingAndPlugs);
      return { label: connector?.label, sort: connector?.kind, ...(connector && connectorFacts(connector)), parts };
    }
    case "segment": {
      const segment = harness.segments.get(item.id);
      return {
        label: segment && `${segment.from} to ${segment.to}`,
        zone: segment?.zone,
        lengthMm: segment?.lengthMm,
        sort: segment?.covering,
      };
    }
    case "zone":
      return { label: document.zones.find((zone) => zone.id === item.id)?.label };
    case "net": {
      const net = harness.nets.get(item.id);
      return { label: net?.label ?? net?.id, sort: net?.kind };
    }
    case "code": {
      const code = document.codes.find((each) => each.id === item.id);
      return { label: code?.label, component: code?.module, sort: code?.failure };
    }
    case "open-end":
      return { label: "far end not in the data" };
    case "inner":
      return { component: item.id.split("#")[0] };
  }
}

function wireFacts(harness: Harness, id: string): Facts {
  const wire = harness.fitted.wires.get(id);
  const number = harness.edgeNumbers.get(id);
  if (!wire || number === undefined) return {};
  const ends = edgeEnds(harness, [number]).map((end) => {
    const node = harness.nodes[end];
    return node?.kind === "contact" ? jointId(node) : (node?.key ?? "");
  });
  const { colour, crossSectionMm2, lengthMm, net, harness: whole, route } = wire;
  const label = [colour, crossSectionMm2 === undefined ? undefined : `${crossSectionMm2} mm²`]
    .filter((each) => each !== undefined)
    .join(" ");
  return {
    label: label === "" ? "wire" : label,
    colour,
    colourName: colour === undefined ? undefined : describeColour(colour),
    crossSectionMm2,
    lengthMm,
    net,
    harness: whole,
    wireNumber: wire.number,
    wireType: wire.type,
    parts: partsOf("wire", wire.part),
    route,
    ends,
  };
}

function contactFacts(harness: Harness, id: string): Facts {
  const colon = id.lastIndexOf(":");
  const owner = id.slice(0, colon);
  const connector = harness.book.sides.get(owner)?.connector ?? harness.book.connectors.get(owner);
  const cavity = connector && harness.book.cavities.get(connector)?.get(id.slice(colon + 1));
  if (!connector || !cavity) return {};
  return {
    ...connectorFacts(connector),
    label: `${connector.label}, cavity ${cavity.id}`,
    connector: connector.id,
    cavity: cavity.id,
    terminalMm: cavity.terminalMm,
    cavityNote: cavity.note,
    isSealed: cavity.sealed ?? connector.sealed,
    sort: connector.kind,
    parts: sideParts(harness, connector, (side) =>
      (side.fitted ?? []).flatMap((each) =>
        each.cavity === cavity.id
          ? (["terminal", "seal", "plug"] as const).flatMap((what) => partsOf(what, each[what]) ?? [])
          : [],
      ),
    ),
  };
}

/** The housing of a half, and each sort of plug that closes cavities of it once. */
function housingAndPlugs({ part, fitted = [] }: ConnectorSide): readonly PartFacts[] {
  const plugs = new Map(fitted.flatMap(({ plug }) => (plug ? [[plug.number, plug] as const] : [])));
  return [...(partsOf("housing", part) ?? []), ...[...plugs.values()].flatMap((plug) => partsOf("plug", plug) ?? [])];
}

function partsOf(what: PartFacts["what"], part: Part | undefined): readonly PartFacts[] | undefined {
  return part && [{ what, ...part }];
}

/** Parts of the halves that are fitted, each with its half; undefined where there are none. */
function sideParts(
  harness: Harness,
  connector: Connector,
  partsIn: (side: ConnectorSide) => readonly PartFacts[],
): readonly PartFacts[] | undefined {
  const sides = harness.fitted.sides.get(connector.id) ?? [];
  const parts = sides.flatMap((side) => partsIn(side).map((part): PartFacts => ({ ...part, side: side.id })));
  return parts.length === 0 ? undefined : parts;
}

function connectorFacts(connector: Connector): Facts {
  const { minutes, remove } = connector.access ?? {};
  return { zone: connector.zone, component: connector.component, isSealed: connector.sealed, minutes, remove };
}

function elementFacts(harness: Harness, id: string): Facts {
  const number = [id, `${id}.top`].map((key) => harness.edgeNumbers.get(key)).find((each) => each !== undefined);
  const edge = harness.edges[number ?? -1];
  if (edge?.kind !== "element") return {};
  const { element, component } = edge;
  const rating = element.kind === "fuse" ? `${element.ratedAmpere} A` : undefined;
  const label = [element.label ?? element.kind, rating].filter((each) => each !== undefined).join(" ");
  return {
    label: `${component.label}: ${label}`,
    component: component.id,
    zone: component.zone,
    sort: element.kind,
    parts: partsOf("part", element.part),
  };
}
