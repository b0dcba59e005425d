import { FittedBy, makePart, SourceFacts, type FactNames, type Origins } from "../xml/source-facts.ts";
import type { FittedWith, SourceConnector, SourcePart } from "../xml/harness-source.ts";
import { childOf, childrenOf, type XmlDocument, type XmlElement } from "../xml/xml-element.ts";

const NAMES: FactNames = {
  absent: new Set(["/NULL"]),
  unit: "UnitComponent",
  value: "ValueComponent",
  readUnit: (unit, facts) => ({
    siName: facts.text(unit, "SiUnitName"),
    siPrefix: facts.text(unit, "SiPrefix"),
    exponent: Number(facts.text(unit, "Exponent") ?? 1),
    otherName:
      facts.text(unit, "UnEceCode") ??
      facts.text(unit, "OtherUnitName") ??
      facts.text(unit, "ImperialUnitName") ??
      facts.text(unit, "Identification"),
  }),
};

/** A VEC file with the look-ups that its readers share. */
export interface VecFacts {
  readonly facts: SourceFacts;
  /** Specifications by class. */
  readonly specifications: ReadonlyMap<string, readonly XmlElement[]>;
  readonly listed: Listed;
  /** Parts of the harness: occurrences, and usages where no part is chosen yet. */
  readonly occurrences: readonly XmlElement[];
  /** Keys of the options that fit a thing, by its id, and what says so. */
  readonly fittedWith: FittedBy["known"];
  readonly placeOf: ReadonlyMap<string, VecSpot>;
}

/** Where a part sits: at a node, or a way along a segment. */
export interface VecSpot {
  readonly node: string | undefined;
  readonly along?: NonNullable<SourceConnector["spot"]>;
  readonly madeOf: Origins;
}

/** Works out the look-ups of a VEC file. */
export function makeVecFacts(document: XmlDocument): VecFacts {
  const facts = new SourceFacts(document, NAMES);
  const specifications = new Map<string, XmlElement[]>();
  for (const version of childrenOf(document.root, "DocumentVersion")) {
    for (const specification of childrenOf(version, "Specification")) {
      const type = specification.type ?? "";
      const list = specifications.get(type) ?? [];
      list.push(specification);
      specifications.set(type, list);
    }
  }
  const listed: Listed = (type, name) => (specifications.get(type) ?? []).flatMap((each) => childrenOf(each, name));
  return {
    ...{ facts, specifications, listed },
    occurrences: [
      ...listed("CompositionSpecification", "Component"),
      ...listed("PartUsageSpecification", "PartUsage"),
    ].filter((occurrence) => occurrence.id !== undefined),
    fittedWith: fittedWith(facts, listed, specifications.get("PartStructureSpecification") ?? []),
    placeOf: placesOf(facts, listed("PlacementSpecification", "Placement")),
  };
}

/** The children of a name in all specifications of a class. */
type Listed = (type: string, name: string) => readonly XmlElement[];

/** Variants that constrain a thing; where there are none, the part structures that list it. */
function fittedWith(facts: SourceFacts, listed: Listed, structures: readonly XmlElement[]): FittedBy["known"] {
  const [byVariant, byStructure] = [new FittedBy(), new FittedBy()];
  const take = (into: FittedBy, holder: XmlElement, name: string, key: string | undefined): void => {
    if (key !== undefined) into.take(facts.references(holder, name), [key], holder);
  };
  for (const constraint of listed("ConfigurationConstraintSpecification", "ConfigurationConstraint"))
    take(byVariant, constraint, "ConstrainedElements", facts.reference(constraint, "ConfigInfo")?.id);
  for (const structure of structures) take(byStructure, structure, "InBillOfMaterial", structure.id);
  for (const occurrence of listed("CompositionSpecification", "Component"))
    for (const role of rolesOf(occurrence, /^PartWithSubComponentsRole$/u))
      take(byStructure, role, "SubComponent", facts.reference(role, "PartStructureSpecification")?.id);
  return new Map([...byStructure.known, ...byVariant.known]);
}

/** What a thing is fitted with: its own configuration, that of what lists it, or that of what it is a part of. */
export function fittedOf(vec: VecFacts, items: Origins): { readonly fitted: FittedWith; readonly madeOf: Origins } {
  for (const item of items) {
    const own = vec.facts.reference(item, "ConfigInfo")?.id;
    if (own !== undefined) return { fitted: new Set([own]), madeOf: [] };
    const constraints = childrenOf(item, "ConfigurationConstraint");
    const keys = constraints
      .map((each) => vec.facts.reference(each, "ConfigInfo")?.id)
      .filter((key) => key !== undefined);
    if (keys.length > 0) return { fitted: new Set(keys), madeOf: constraints };
    const listed = vec.fittedWith.get(item?.id ?? "");
    if (listed) return { fitted: listed.keys, madeOf: withHolders(listed.madeOf) };
  }
  return { fitted: undefined, madeOf: [] };
}

/** Elements with the specifications that hold them: those say nothing but what they hold. */
export function withHolders(elements: Origins): Origins {
  return elements.flatMap((element) => [
    element,
    element?.parent?.name === "Specification" ? element.parent : undefined,
  ]);
}

/** What the file says of the part that an occurrence is of: its number, maker and description. */
export function partOf(vec: VecFacts, occurrence: XmlElement | undefined): SourcePart | undefined {
  const part = vec.facts.reference(occurrence, "Part");
  const number = vec.facts.text(part, "PartNumber");
  if (number === undefined) return undefined;
  const made = makePart(number, vec.facts.text(part, "CompanyName"), describedBy(vec, part));
  return { part: made, madeOf: [part, ...describing(vec, part)] };
}

function placesOf(facts: SourceFacts, placements: readonly XmlElement[]): ReadonlyMap<string, VecSpot> {
  const places = new Map<string, VecSpot>();
  for (const placement of placements) {
    const location = childOf(placement, "Location");
    const found = spotOf(facts, location);
    if (!found) continue;
    const spot = {
      ...found,
      madeOf: [...withHolders([placement]), location, ...facts.behind(childOf(location, "Offset"))],
    };
    for (const placed of facts.references(placement, "PlacedElement")) {
      // A role is placed; it is the part around it that is asked for.
      for (const item of [placed, placed.parent])
        if (item?.id !== undefined && !places.has(item.id)) places.set(item.id, spot);
    }
  }
  return places;
}

function spotOf(facts: SourceFacts, location: XmlElement | undefined): Omit<VecSpot, "madeOf"> | undefined {
  const node = facts.reference(location, "ReferencedNode")?.id;
  if (node !== undefined) return { node };
  const segment = facts.reference(location, "ReferencedSegment")?.id;
  const offsetMm = facts.quantity(childOf(location, "Offset"), "length");
  if (segment === undefined || offsetMm === undefined) return undefined;
  return { node: undefined, along: { segment, offsetMm, fromEnd: facts.text(location, "Anchor") === "FromEndNode" } };
}

/** Roles of a part, by the name of their class. */
export function rolesOf(occurrence: XmlElement, pattern: RegExp): readonly XmlElement[] {
  return childrenOf(occurrence, "Role").filter((role) => pattern.test(role.type ?? ""));
}

/** What a person may read of a part: its description, or that of its place in the vehicle. */
export function describedBy(vec: VecFacts, item: XmlElement | undefined): string | undefined {
  return vec.facts.text(describing(vec, item).at(-1), "Value");
}

/** The elements that describe a part, the one with the text last; none where nothing does. */
export function describing({ facts }: VecFacts, item: XmlElement | undefined): Origins {
  for (const element of [item, facts.reference(item, "RealizedUsageNode")]) {
    for (const name of ["Description", "Abbreviation"]) {
      const told = childOf(element, name);
      if (facts.text(told, "Value") !== undefined) return element === item ? [told] : [element, told];
    }
  }
  return [];
}

/** What the file calls a thing. */
export function nameOf({ facts }: VecFacts, item: XmlElement | undefined): string {
  return facts.text(item, "Identification") ?? item?.id ?? "";
}
