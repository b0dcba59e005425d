import { defined } from "../../base/index.ts";
import { mostTrusted, readNumber, type Origins } from "../xml/source-facts.ts";
import type {
  RawColour,
  SourceConnector,
  SourceContact,
  SourceEnd,
  SourceSegment,
  SourceTopology,
  SourceWire,
} from "../xml/harness-source.ts";
import { childOf, childrenOf, type XmlElement } from "../xml/xml-element.ts";
import type { VecContacting } from "./read-contacting.ts";
import { fittedOf, nameOf, partOf, rolesOf, type VecFacts, withHolders } from "./vec-facts.ts";

/** Length types in the order in which they are trusted; any other comes last. Common practice, no source. */
const LENGTH_TYPES: readonly RegExp[] = [/^production$/iu, /^drawing$/iu, /^DMU$/iu];

/** Reads wire elements that have ends, single wires and cores of cables, and the open ends of those contacted at one side only. */
export function readWires(vec: VecFacts, contacting: VecContacting) {
  const wires: SourceWire[] = [];
  const openEnds: SourceConnector[] = [];
  const openContacts: SourceContact[] = [];
  const names = countNames(vec);
  for (const occurrence of vec.occurrences) {
    for (const role of rolesOf(occurrence, /^WireRole$/u)) {
      const elements = childrenOf(role, "WireElementReference").filter(
        (each) => childrenOf(each, "WireEnd").length > 0,
      );
      for (const element of elements) {
        const own = vec.facts.text(element, "Identification");
        const isPlain = own !== undefined && names.get(own) === 1;
        const name = isPlain ? own : [nameOf(vec, occurrence), own].filter((text) => text !== undefined).join(".");
        const ends = endsOf(vec, element, contacting);
        const group = elements.length > 1 ? nameOf(vec, occurrence) : undefined;
        const when = fittedOf(vec, [element, occurrence]);
        const { fitted } = when;
        const at = vec.facts.place(element);
        const key = element.id ?? `wire ${wires.length}`;
        const isContacted = ends.some((end) => end.contact !== undefined);
        const known: SourceEnd[] = ends.flatMap((end, number) => {
          if (end.contact !== undefined) return [{ contact: end.contact, position: end.position }];
          if (!isContacted) return [];
          const open = `open ${key} ${number}`;
          const cavity = { key: `${open} 1`, name: "1", sealed: false, fitted: [], at, madeOf: [] };
          const none = { label: undefined, box: undefined, node: undefined, part: undefined, madeOf: [] };
          const more = { ...none, cavities: [cavity], fitted, at };
          openEnds.push({ key: open, name: `${name}-end`, use: "open-end", ...more });
          openContacts.push({ key: open, connector: open, cavities: [cavity.key], madeOf: [] });
          return [{ contact: open, position: end.position }];
        });
        const { madeOf, ...told } = wireFacts(vec, element);
        const elementsOfWire = [occurrence, role, element, ...childrenOf(element, "WireEnd")];
        const number = vec.facts.text(element, "LabelValue");
        const wire = { key, name, at, ends: known, group, number, part: partOf(vec, occurrence), fitted, ...told };
        wires.push({ ...wire, madeOf: [...elementsOfWire, ...madeOf, ...when.madeOf] });
      }
    }
  }
  return { wires, openEnds, openContacts };
}

/** How often each own name of a wire element occurs: "1" is the name of a core in every cable. */
function countNames(vec: VecFacts): ReadonlyMap<string, number> {
  const counts = new Map<string, number>();
  for (const occurrence of vec.occurrences) {
    for (const role of rolesOf(occurrence, /^WireRole$/u)) {
      for (const element of childrenOf(role, "WireElementReference")) {
        const name = vec.facts.text(element, "Identification");
        if (name !== undefined && childrenOf(element, "WireEnd").length > 0)
          counts.set(name, (counts.get(name) ?? 0) + 1);
      }
    }
  }
  return counts;
}

function endsOf({ facts }: VecFacts, element: XmlElement, { contactOfEnd }: VecContacting) {
  return childrenOf(element, "WireEnd").map((end, at) => {
    return { contact: contactOfEnd.get(end.id ?? ""), position: facts.number(end, "PositionOnWire") ?? at };
  });
}

function wireFacts({ facts }: VecFacts, element: XmlElement) {
  const wireElement = facts.reference(element, "ReferencedWireElement");
  const specification = facts.reference(wireElement, "WireElementSpecification");
  const conductor = facts.reference(specification, "ConductorSpecification");
  const insulation = facts.reference(specification, "InsulationSpecification");
  const connection = facts.reference(element, "Connection");
  const signal = facts.reference(element, "Signal") ?? facts.reference(connection, "Signal");
  const net = facts.reference(connection, "Net");
  const length = mostTrusted(childrenOf(element, "WireLength"), "LengthType", LENGTH_TYPES);
  const lengthValue = childOf(length, "LengthValue");
  const area = childOf(conductor, "CrossSectionArea");
  const type = childOf(specification, "Type");
  const lengthMm = facts.quantity(lengthValue, "length");
  const crossSectionMm2 = facts.quantity(area, "area");
  const colours = colourNames.flatMap(([name]) => childrenOf(insulation, name));
  return {
    madeOf: [
      ...[wireElement, wireElement?.parent, specification, conductor, insulation, connection, signal, type, ...colours],
      ...[lengthMm === undefined ? undefined : length, ...facts.behind(lengthValue), ...facts.behind(area)],
      signal === undefined ? net : undefined,
    ],
    type: facts.text(type, "Type"),
    colours: colourNames.flatMap(([name, role]) =>
      childrenOf(insulation, name).flatMap((colour): RawColour[] => {
        const text = facts.text(colour, "Key");
        const system = facts.text(colour, "ReferenceSystem");
        return text === undefined ? [] : [{ role, text, ...defined({ system }) }];
      }),
    ),
    crossSectionMm2,
    lengthMm,
    signal:
      facts.text(signal, "SignalName") ?? facts.text(signal, "Identification") ?? facts.text(net, "Identification"),
  };
}

const colourNames: readonly (readonly [string, RawColour["role"]])[] = [
  ["BaseColor", "base"],
  ["FirstIdentificationColor", "tracer"],
  ["SecondIdentificationColor", "more"],
];

/** Reads topology nodes, with places from a geometry where there is one, segments, and routings. */
export function readTopology(vec: VecFacts): SourceTopology {
  const { facts } = vec;
  const positions = nodePositions(vec);
  return {
    nodes: vec.listed("TopologySpecification", "TopologyNode").flatMap((node) => {
      if (node.id === undefined) return [];
      const drawn = positions.get(node.id);
      const madeOf = withHolders([node, ...(drawn?.madeOf ?? [])]);
      return [{ key: node.id, name: nameOf(vec, node), at: facts.place(node), position: drawn?.position, madeOf }];
    }),
    segments: vec.listed("TopologySpecification", "TopologySegment").flatMap((segment) => readSegment(vec, segment)),
    routes: vec.listed("RoutingSpecification", "Routing").flatMap((routing) => {
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

/** Coordinates of topology nodes: those in space before those on a drawing. */
function nodePositions(vec: VecFacts) {
  const { facts } = vec;
  const positions = new Map<string, { readonly position: readonly number[]; readonly madeOf: Origins }>();
  const space = ["BuildingBlockSpecification3D", ["X", "Y", "Z"]] as const;
  for (const [type, axes] of [space, ["BuildingBlockSpecification2D", ["X", "Y"]] as const]) {
    for (const node of vec.listed(type, "GeometryNode")) {
      const topology = facts.reference(node, "ReferenceNode")?.id;
      const point = facts.reference(node, "CartesianPoint");
      const numbers = axes.map((axis) => readNumber(facts.text(point, axis))).filter((number) => number !== undefined);
      if (topology !== undefined && numbers.length === axes.length && !positions.has(topology))
        positions.set(topology, { position: numbers, madeOf: [node, point] });
    }
  }
  return positions;
}
