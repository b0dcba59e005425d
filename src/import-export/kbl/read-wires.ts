import { idsIn, mostTrusted, readNumber, type SourceFacts } from "../xml/source-facts.ts";
import type { RawColour, SourceEnd, SourceSegment, SourceTopology, SourceWire } from "../xml/harness-source.ts";
import { childOf, childrenOf, type XmlElement } from "../xml/xml-element.ts";
import { fittedOf, partOf, targetOf, type KblFacts } from "./kbl-facts.ts";

/** Length types in the order in which they are trusted; any other comes last. Common practice, no source. */
const LENGTH_TYPES: readonly RegExp[] = [/^production$/iu, /^(?:cutting|manufacturing)$/iu, /^drawing$/iu, /^DMU$/iu];

/** Reads connections as wires: one for each wire or core that is contacted. */
export function readWires(kbl: KblFacts): readonly SourceWire[] {
  const groups = readGroups(kbl);
  return kbl.harnesses.flatMap((harness) =>
    childrenOf(harness, "Connection").flatMap((connection) => readWire(kbl, connection, groups)),
  );
}

function readWire(kbl: KblFacts, connection: XmlElement, groups: Groups): SourceWire[] {
  const { facts } = kbl;
  const wire = targetOf(kbl, connection, "Wire", ["General_wire_occurrence", "Core_occurrence"]);
  const cable = wire?.name === "Core_occurrence" ? wire.parent : undefined;
  const part = facts.reference(wire, "Part");
  const number = facts.text(wire, "Wire_number");
  const key = connection.id ?? wire?.id;
  if (key === undefined) return [];
  const colours = [...childrenOf(part, "Cover_colour"), ...childrenOf(part, "Core_colour")];
  const cablePart = facts.reference(cable, "Part");
  const area = childOf(part, "Cross_section_area");
  const extremities = childrenOf(connection, "Extremities");
  const group = groups.get(wire?.id ?? "");
  const length = [wire, cable]
    .map((each) => mostTrusted(childrenOf(each, "Length_information"), "Length_type", LENGTH_TYPES))
    .find((each) => facts.quantity(childOf(each, "Length_value"), "length") !== undefined);
  const lengthValue = childOf(length, "Length_value");
  const when = fittedOf(kbl, [connection, wire, cable]);
  return [
    {
      key,
      name: facts.text(connection, "Id") ?? number ?? key,
      at: facts.place(connection),
      ends: extremities.flatMap((extremity, at) => endOf(facts, extremity, at)),
      colours: colours.flatMap((colour) => colourOf(facts, colour)),
      crossSectionMm2: facts.quantity(area, "area"),
      lengthMm: facts.quantity(lengthValue, "length"),
      signal: facts.text(connection, "Signal_name"),
      group: group?.name ?? facts.text(cable, "Special_wire_id"),
      number,
      type: facts.text(part, "Wire_type") ?? facts.text(cablePart, "Wire_type"),
      part: partOf(kbl, part) ?? partOf(kbl, cablePart),
      fitted: when.fitted,
      madeOf: [
        ...[connection, ...extremities, wire, cable, part, cablePart, ...colours, length, group?.madeOf],
        ...facts.behind(area),
        ...facts.behind(lengthValue),
        ...when.madeOf,
      ],
    },
  ];
}

/** An end keeps the id it refers to even where nothing has it: leaving an end out in silence would hide a wire. */
function endOf(facts: SourceFacts, extremity: XmlElement, at: number): SourceEnd[] {
  const contact = idsIn(childOf(extremity, "Contact_point")?.text ?? "")[0];
  const position = facts.number(extremity, "Position_on_wire") ?? at;
  return contact === undefined ? [] : [{ contact, position }];
}

function colourOf(facts: SourceFacts, colour: XmlElement): RawColour[] {
  const text = facts.text(colour, "Colour_value");
  if (text === undefined) return [];
  const type = facts.text(colour, "Colour_type") ?? "";
  if (/^(?:base|grund)/iu.test(type)) return [{ role: "base", text }];
  return [{ role: /^(?:second|zweite)|2$/iu.test(type) ? "more" : "tracer", text }];
}

type Groups = ReadonlyMap<string, { readonly name: string; readonly madeOf: XmlElement }>;

/** Twisted and other groups, by the ids of their wires. */
function readGroups({ facts, harnesses }: KblFacts): Groups {
  const groups = new Map<string, { name: string; madeOf: XmlElement }>();
  for (const group of harnesses.flatMap((harness) => childrenOf(harness, "Wiring_group"))) {
    const texts = [facts.text(group, "Id"), facts.text(group, "Type")].filter((text) => text !== undefined);
    for (const wire of facts.references(group, "Assigned_wire")) {
      if (wire.id !== undefined && texts.length > 0)
        groups.set(wire.id, { name: texts.join(", ").slice(0, 600), madeOf: group });
    }
  }
  return groups;
}

/** Reads nodes, segments with coverings and fixings, and routings. */
export function readTopology({ facts }: KblFacts): SourceTopology {
  const { root } = facts.document;
  return {
    nodes: childrenOf(root, "Node").flatMap((node) => {
      if (node.id === undefined) return [];
      const name = facts.text(node, "Id") ?? node.id;
      const position = positionOf(facts, node);
      const point = position && facts.reference(node, "Cartesian_point");
      return [{ key: node.id, name, at: facts.place(node), position, madeOf: [node, point] }];
    }),
    segments: childrenOf(root, "Segment").flatMap((segment) => readSegment(facts, segment)),
    routes: childrenOf(root, "Routing").flatMap((routing) => {
      const wire = facts.reference(routing, "Routed_wire")?.id;
      const segments = childrenOf(routing, "Segments").flatMap(({ text }) => (text === "" ? [] : text.split(/\s+/u)));
      return wire === undefined ? [] : [{ wire, segments, at: facts.place(routing), madeOf: [routing] }];
    }),
  };
}

function positionOf(facts: SourceFacts, node: XmlElement): readonly number[] | undefined {
  const point = facts.reference(node, "Cartesian_point");
  const numbers = childrenOf(point, "Coordinates").map((each) => readNumber(each.text));
  const known = numbers.filter((number) => number !== undefined);
  return known.length >= 2 && known.length === numbers.length ? known : undefined;
}

function readSegment(facts: SourceFacts, segment: XmlElement): SourceSegment[] {
  if (segment.id === undefined) return [];
  const own = facts.text(segment, "Id");
  const lengths = ["Physical_length", "Virtual_length"].map((name) => childOf(segment, name));
  // The physical length is the one on the bench; the virtual one comes from the model of the vehicle.
  const length = lengths.find((each) => facts.quantity(each, "length") !== undefined);
  const covering = coveringOf(facts, segment);
  const clips = clipsOf(facts, segment);
  return [
    {
      key: segment.id,
      // The own name of a segment is often a path of a drawing program, which is no id for people.
      name: own !== undefined && /^[\p{L}\p{N}][\p{L}\p{N}._+-]{0,63}$/u.test(own) ? own : segment.id,
      at: facts.place(segment),
      from: facts.reference(segment, "Start_node")?.id ?? "",
      to: facts.reference(segment, "End_node")?.id ?? "",
      lengthMm: facts.quantity(length, "length"),
      covering: covering.text,
      clips: clips.text,
      madeOf: [segment, ...facts.behind(length), ...covering.madeOf, ...clips.madeOf],
    },
  ];
}

function coveringOf(facts: SourceFacts, segment: XmlElement) {
  const madeOf: (XmlElement | undefined)[] = [];
  const texts = childrenOf(segment, "Protection_area").map((area) => {
    const occurrence = facts.reference(area, "Associated_protection");
    const part = facts.reference(occurrence, "Part");
    const ofPart = facts.text(part, "Description") ?? facts.text(part, "Part_number");
    const name = ofPart ?? facts.text(occurrence, "Id");
    if (name !== undefined) madeOf.push(area, occurrence, ofPart === undefined ? undefined : part);
    const [start, end] = ["Start_location", "End_location"].map((place) => readNumber(facts.text(area, place)));
    const share = (value: number): string => String(Math.round(value * 100));
    const whole = start === undefined || end === undefined || (start <= 0 && end >= 1);
    return name && (whole ? name : `${name} (${share(start)} to ${share(end)} %)`);
  });
  return { text: listed(texts), madeOf };
}

function clipsOf(facts: SourceFacts, segment: XmlElement) {
  const madeOf: (XmlElement | undefined)[] = [];
  const texts = childrenOf(segment, "Fixing_assignment").map((assignment) => {
    const occurrence = facts.reference(assignment, "Fixing");
    const part = facts.reference(occurrence, "Part");
    const own = facts.text(occurrence, "Id");
    const name = own ?? facts.text(part, "Description");
    if (name !== undefined) madeOf.push(assignment, occurrence, own === undefined ? part : undefined);
    if (own !== undefined) facts.account.leaveOut([part], "a clip is kept with its own name only");
    const location = readNumber(facts.text(assignment, "Location"));
    return name && (location === undefined ? name : `${name} (at ${Math.round(location * 100)} %)`);
  });
  return { text: listed(texts), madeOf };
}

function listed(texts: readonly (string | undefined)[]): string | undefined {
  const given = texts.filter((text) => text !== undefined && text !== "");
  return given.length === 0 ? undefined : given.join(", ").slice(0, 600);
}
