import { sideKey, type Connector, type ConnectorSide, type Harness } from "../harness-model/index.ts";
import { colourMark, type ColourMark } from "./colour-mark.ts";

/** A wire that ends in a cavity. */
interface CavityWire {
  readonly id: string;
  readonly mark: ColourMark;
  readonly crossSectionMm2?: number;
  readonly net?: string;
}

/** What is in one cavity of a half on this build. */
export interface CavityContent {
  readonly cavity: string;
  /** Wires that end in this half; more than one where a terminal is shared. */
  readonly wires: readonly CavityWire[];
  /** Something ends here in either half. */
  readonly isUsed: boolean;
}

/**
 * What lies in the cavities of a connector half: the wires that end there. The half of a component has no wires of its own; the
 * wires of the half that mates with it are given, since they are what a person sees at that cavity.
 */
export function cavityContents(
  harness: Harness,
  connector: Connector,
  side: ConnectorSide,
): ReadonlyMap<string, CavityContent> {
  const sides = harness.fitted.sides.get(connector.id) ?? [];
  const others = sides.filter((each) => each.id !== side.id);
  return new Map(
    connector.cavities.map(({ id }): [string, CavityContent] => {
      const own = wiresAt(harness, `${sideKey(connector, side)}:${id}`);
      const across = others.flatMap((other) => wiresAt(harness, `${sideKey(connector, other)}:${id}`));
      const isUsed = sides.some((each) => harness.nodeNumbers.has(`${sideKey(connector, each)}:${id}`));
      return [id, { cavity: id, wires: own.length > 0 || side.id !== "device" ? own : across, isUsed }];
    }),
  );
}

function wiresAt(harness: Harness, key: string): readonly CavityWire[] {
  const node = harness.nodeNumbers.get(key);
  if (node === undefined) return [];
  const { offsets, arcEdges } = harness.index;
  const wires: CavityWire[] = [];
  for (let arc = offsets[node] ?? 0; arc < (offsets[node + 1] ?? 0); arc++) {
    const edge = harness.edges[arcEdges[arc] ?? -1];
    if (edge?.kind !== "wire") continue;
    const { id, colour, crossSectionMm2, net } = edge.wire;
    wires.push({
      id,
      mark: colourMark(colour),
      ...(crossSectionMm2 !== undefined && { crossSectionMm2 }),
      ...(net !== undefined && { net }),
    });
  }
  return wires;
}
