import type { SourceNode, SourceRoute, SourceSegment } from "../xml/source/harness-source.ts";
import { readNumber } from "../xml/source/source-facts.ts";
import { childOf, childrenOf, type XmlElement } from "../xml/xml-element.ts";
import { nameOf, type VecFacts } from "./vec-facts.ts";

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
        return [{ key: node.id, name: nameOf(vec, node), at: facts.place(node), position: positions.get(node.id) }];
      }),
    segments: topologies
      .flatMap((each) => childrenOf(each, "TopologySegment"))
      .flatMap((segment) => readSegment(vec, segment)),
    routes: (specifications.get("RoutingSpecification") ?? [])
      .flatMap((each) => childrenOf(each, "Routing"))
      .flatMap((routing) => {
        const wire = facts.reference(routing, "RoutedElement")?.id;
        const segments = childrenOf(childOf(routing, "Path"), "Segment").flatMap(({ text }) => text.split(/\s+/u));
        return wire === undefined ? [] : [{ wire, segments, at: facts.place(routing) }];
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
  return [
    {
      key: segment.id,
      name: nameOf(vec, segment),
      at: facts.place(segment),
      from: facts.reference(segment, "StartNode")?.id ?? "",
      to: facts.reference(segment, "EndNode")?.id ?? "",
      lengthMm: facts.quantity(childOf(best, "Length"), "length"),
      covering: undefined,
      clips: undefined,
    },
  ];
}

/** Coordinates of topology nodes: those in space before those on a drawing. */
function nodePositions({ facts, specifications }: VecFacts): ReadonlyMap<string, readonly number[]> {
  const positions = new Map<string, readonly number[]>();
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
        positions.set(topology, numbers);
    }
  }
  return positions;
}
