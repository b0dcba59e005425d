import type { Origins } from "../xml/source/account.ts";
import { readNumber, type SourceFacts } from "../xml/source/source-facts.ts";
import type { SourceNode, SourceRoute, SourceSegment } from "../xml/source/harness-source.ts";
import { childOf, childrenOf, type XmlElement } from "../xml/xml-element.ts";
import type { KblFacts } from "./kbl-facts.ts";

/** What a KBL file says of where the harness runs. */
export interface KblTopology {
  readonly nodes: readonly SourceNode[];
  readonly segments: readonly SourceSegment[];
  readonly routes: readonly SourceRoute[];
}

/** Reads nodes, segments with coverings and fixings, and routings. */
export function readTopology({ facts }: KblFacts): KblTopology {
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

interface Worded {
  readonly text: string | undefined;
  readonly madeOf: Origins;
}

function coveringOf(facts: SourceFacts, segment: XmlElement): Worded {
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

function clipsOf(facts: SourceFacts, segment: XmlElement): Worded {
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
