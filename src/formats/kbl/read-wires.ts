import { importProblem } from "../import-problem.ts";
import type { RawColour } from "../xml/source/colour-scheme.ts";
import { readNumber, type SourceFacts } from "../xml/source/source-facts.ts";
import { idsIn } from "../xml/source/check-references.ts";
import type { SourceEnd, SourceWire } from "../xml/source/harness-source.ts";
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
    .map(lengthOf)
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
  const text = facts.text(extremity, "Position_on_wire");
  const position = readNumber(text);
  if (text !== undefined && position === undefined) {
    const wrong = { name: extremity.name, text: text.slice(0, 40) };
    facts.report(importProblem("source-number-wrong", facts.place(extremity), wrong));
  }
  return contact === undefined ? [] : [{ contact, position: position ?? at }];
}

function colourOf(facts: SourceFacts, colour: XmlElement): RawColour[] {
  const text = facts.text(colour, "Colour_value");
  if (text === undefined) return [];
  const type = facts.text(colour, "Colour_type") ?? "";
  if (/^(?:base|grund)/iu.test(type)) return [{ role: "base", text }];
  return [{ role: /^(?:second|zweite)|2$/iu.test(type) ? "more" : "tracer", text }];
}

/** The length of a wire or cable that is trusted most. */
function lengthOf(wire: XmlElement | undefined): XmlElement | undefined {
  const all = childrenOf(wire, "Length_information");
  const rank = (length: XmlElement): number => {
    const type = childOf(length, "Length_type")?.text ?? "";
    const at = LENGTH_TYPES.findIndex((pattern) => pattern.test(type));
    return at < 0 ? LENGTH_TYPES.length : at;
  };
  return all.toSorted((first, second) => rank(first) - rank(second))[0];
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
