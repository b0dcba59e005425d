import { jointId, nodeItem } from "../connectivity/index.ts";
import { describeColour, type Connector, type ConnectorSide, type Harness } from "../harness-model/index.ts";
import { labelOf } from "./item-names.ts";

/** One wire at a pin. */
export interface PinWire {
  readonly id: string;
  /** Colour code (IEC 60757), and the colour in words. */
  readonly colour: string | undefined;
  readonly colourName: string | undefined;
  /** Conductor size in mm². */
  readonly crossSectionMm2: number | undefined;
  /** What the wire is for: the label of its net; its net where that has none. */
  readonly circuit: string | undefined;
  /** Address of its other end; undefined where the data names one end only. */
  readonly otherEnd: string | undefined;
  /** What the other end is called; undefined where it has no name. */
  readonly otherName: string | undefined;
}

/** One cavity of a connector with its wires. */
export interface PinRow {
  readonly cavity: string;
  readonly note: string | undefined;
  readonly wires: readonly PinWire[];
}

/**
 * The pin-out table of a side of a connector: every cavity with its wires and where they go.
 *
 * @param harness The harness; only fitted wires are listed.
 * @param connector The connector.
 * @param side Its side that the wires come to.
 * @returns One row a cavity, in the order of the document; a cavity without a wire has an empty list.
 */
export function pinOut(harness: Harness, connector: Connector, side: ConnectorSide): readonly PinRow[] {
  const nets = new Map(harness.document.nets.map(({ id, label }) => [id, label]));
  const at = new Map<string, PinWire[]>();
  harness.edges.forEach((edge, number) => {
    if (edge.kind !== "wire") return;
    const ends = [harness.nodes[harness.index.from[number] ?? -1], harness.nodes[harness.index.to[number] ?? -1]];
    ends.forEach((node, end) => {
      if (node?.kind !== "contact" || node.connector !== connector || node.side !== side) return;
      const { id, colour, crossSectionMm2, net } = edge.wire;
      const other = ends[1 - end];
      const item = other && other.kind !== "open-end" ? nodeItem(other) : undefined;
      const row: PinWire = {
        id,
        colour,
        colourName: colour === undefined ? undefined : describeColour(colour),
        crossSectionMm2,
        circuit: net === undefined ? undefined : (nets.get(net) ?? net),
        otherEnd: other?.kind === "contact" ? jointId(other) : item?.id,
        otherName: other?.kind === "contact" ? other.connector.label : item && labelOf(harness, item.id),
      };
      at.set(node.cavity.id, [...(at.get(node.cavity.id) ?? []), row]);
    });
  });
  return connector.cavities.map(({ id, note }) => ({ cavity: id, note, wires: at.get(id) ?? [] }));
}
