import type { Origins } from "../xml/source/account.ts";
import type { SourceNode, SourceRoute, SourceSegment } from "../xml/source/harness-source.ts";
import { readNumber } from "../xml/source/source-facts.ts";
import { childOf, childrenOf, type XmlElement } from "../xml/xml-element.ts";
import { nameOf, withHolders, type VecFacts } from "./vec-facts.ts";

/** What a VEC file says of where the harness runs. */
export interface VecTopology {
  readonly nodes: readonly SourceNode[];
  readonly segments: readonly SourceSegment[];
  readonly routes: readonly SourceRoute[];
}

/** Reads topology nodes, with places from a geometry where there is one, segments, and routings. */
export function readTopology(vec: VecFacts): VecTopology {
  const { facts, specifications } = vec;
  const topologies = specifications.get("TopologySpecification") ?? [];
  const positions = nodePositions(vec);
  return {
    nodes: topologies
      .flatMap((each) => childrenOf(each, "TopologyNode"))
      .flatMap((node) => {
        if (node.id === undefined) return [];
        const drawn = positions.get(node.id);
        const madeOf = withHolders([node, ...(drawn?.madeOf ?? [])]);
        return [{ key: node.id, name: nameOf(vec, node), at: facts.place(node), position: drawn?.position, madeOf }];
      }),
    segments: topologies
      .flatMap((each) => childrenOf(each, "TopologySegment"))
      .flatMap((segment) => readSegment(vec, segment)),
    routes: (specifications.get("RoutingSpecification") ?? [])
      .flatMap((each) => childrenOf(each, "Routing"))
      .flatMap((routing) => {
        const wire = facts.reference(routing, "RoutedElement")?.id;
        const path = childOf(routing, "Path");
        const segments = childrenOf(path, "Segment").flatMap(({ text }) => text.split(/\s+/u));
        const madeOf = withHolders([routing, path]);
        return wire === undefined ? [] : [{ wire, segments, at: facts.place(routing), madeOf }];
      }),
  };
}

function readSegment(vec: VecFacts, segment: XmlElement): SourceSegment[] {
  const { facts } = vec;
  if (segment.id === undefined) return [];
  const lengths = childrenOf(segment, "LengthInformation");
  // The one on the bench before the one of the model of the vehicle.
  const best =
    lengths.find((each) => /physical|production/iu.test(facts.text(each, "Classification") ?? "")) ?? lengths[0];
  const length = childOf(best, "Length");
  const lengthMm = facts.quantity(length, "length");
  return [
    {
      key: segment.id,
      name: nameOf(vec, segment),
      at: facts.place(segment),
      from: facts.reference(segment, "StartNode")?.id ?? "",
      to: facts.reference(segment, "EndNode")?.id ?? "",
      lengthMm,
      covering: undefined,
      clips: undefined,
      madeOf: [...withHolders([segment]), lengthMm === undefined ? undefined : best, ...facts.behind(length)],
    },
  ];
}

interface Drawn {
  readonly position: readonly number[];
  readonly madeOf: Origins;
}

/** Coordinates of topology nodes: those in space before those on a drawing. */
function nodePositions({ facts, specifications }: VecFacts): ReadonlyMap<string, Drawn> {
  const positions = new Map<string, Drawn>();
  const geometries = [
    ["BuildingBlockSpecification3D", ["X", "Y", "Z"]],
    ["BuildingBlockSpecification2D", ["X", "Y"]],
  ] as const;
  for (const [type, axes] of geometries) {
    for (const node of (specifications.get(type) ?? []).flatMap((each) => childrenOf(each, "GeometryNode"))) {
      const topology = facts.reference(node, "ReferenceNode")?.id;
      const point = facts.reference(node, "CartesianPoint");
      const numbers = axes.map((axis) => readNumber(facts.text(point, axis))).filter((number) => number !== undefined);
      if (topology !== undefined && numbers.length === axes.length && !positions.has(topology))
        positions.set(topology, { position: numbers, madeOf: [node, point] });
    }
  }
  return positions;
}
