import type { FittedWith } from "../xml/source/harness-source.ts";
import { SourceFacts, type FactNames } from "../xml/source/source-facts.ts";
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
  /** Parts of the harness: occurrences, and usages where no part is chosen yet. */
  readonly occurrences: readonly XmlElement[];
  /** Keys of the options that fit a thing, by its id. */
  readonly fittedWith: ReadonlyMap<string, ReadonlySet<string>>;
  readonly placeOf: ReadonlyMap<string, VecSpot>;
}

/** Where a part sits: at a node, or a way along a segment. */
export interface VecSpot {
  readonly node: string | undefined;
  readonly segment?: string;
  readonly offsetMm?: number;
  readonly fromEnd?: boolean;
}

/** Works out the look-ups of a VEC file. */
export function makeVecFacts(document: XmlDocument): VecFacts {
  const facts = new SourceFacts(document, NAMES);
  const specifications = new Map<string, XmlElement[]>();
  for (const version of childrenOf(document.root, "DocumentVersion")) {
    for (const specification of childrenOf(version, "Specification")) {
      const type = specification.type ?? "";
      const list = specifications.get(type);
      if (list) list.push(specification);
      else specifications.set(type, [specification]);
    }
  }
  const of = (type: string): readonly XmlElement[] => specifications.get(type) ?? [];
  return {
    facts,
    specifications,
    occurrences: [
      ...of("CompositionSpecification").flatMap((each) => childrenOf(each, "Component")),
      ...of("PartUsageSpecification").flatMap((each) => childrenOf(each, "PartUsage")),
    ].filter((occurrence) => occurrence.id !== undefined),
    fittedWith: fittedWith(facts, of),
    placeOf: placesOf(facts, of),
  };
}

type SpecificationsOf = (type: string) => readonly XmlElement[];

/** Variants that constrain a thing; where there are none, the part structures that list it. */
function fittedWith(facts: SourceFacts, of: SpecificationsOf): ReadonlyMap<string, ReadonlySet<string>> {
  const variants = new Map<string, Set<string>>();
  const structures = new Map<string, Set<string>>();
  const take = (into: Map<string, Set<string>>, things: readonly XmlElement[], key: string | undefined): void => {
    if (key === undefined) return;
    for (const { id } of things) if (id !== undefined) into.set(id, (into.get(id) ?? new Set()).add(key));
  };
  for (const constraint of of("ConfigurationConstraintSpecification").flatMap((each) =>
    childrenOf(each, "ConfigurationConstraint"),
  )) {
    take(variants, facts.references(constraint, "ConstrainedElements"), facts.reference(constraint, "ConfigInfo")?.id);
  }
  for (const structure of of("PartStructureSpecification")) {
    take(structures, facts.references(structure, "InBillOfMaterial"), structure.id);
  }
  for (const occurrence of of("CompositionSpecification").flatMap((each) => childrenOf(each, "Component"))) {
    for (const role of rolesOf(occurrence, /^PartWithSubComponentsRole$/u)) {
      take(structures, facts.references(role, "SubComponent"), facts.reference(role, "PartStructureSpecification")?.id);
    }
  }
  return new Map([...structures, ...variants]);
}

/** What a thing is fitted with: its own configuration, that of what lists it, or that of what it is a part of. */
export function fittedOf(vec: VecFacts, things: readonly (XmlElement | undefined)[]): FittedWith {
  for (const thing of things) {
    const own = vec.facts.reference(thing, "ConfigInfo")?.id;
    if (own !== undefined) return new Set([own]);
    const constraints = childrenOf(thing, "ConfigurationConstraint").map(
      (each) => vec.facts.reference(each, "ConfigInfo")?.id,
    );
    const keys = constraints.filter((key) => key !== undefined);
    if (keys.length > 0) return new Set(keys);
    const listed = vec.fittedWith.get(thing?.id ?? "");
    if (listed) return listed;
  }
  return undefined;
}

function placesOf(facts: SourceFacts, of: SpecificationsOf): ReadonlyMap<string, VecSpot> {
  const places = new Map<string, VecSpot>();
  for (const placement of of("PlacementSpecification").flatMap((each) => childrenOf(each, "Placement"))) {
    const spot = spotOf(facts, childOf(placement, "Location"));
    if (!spot) continue;
    for (const placed of facts.references(placement, "PlacedElement")) {
      // A role is placed; it is the part around it that is asked for.
      for (const thing of [placed, placed.parent])
        if (thing?.id !== undefined && !places.has(thing.id)) places.set(thing.id, spot);
    }
  }
  return places;
}

function spotOf(facts: SourceFacts, location: XmlElement | undefined): VecSpot | undefined {
  const node = facts.reference(location, "ReferencedNode")?.id;
  if (node !== undefined) return { node };
  const segment = facts.reference(location, "ReferencedSegment")?.id;
  const offsetMm = facts.quantity(childOf(location, "Offset"), "length");
  if (segment === undefined || offsetMm === undefined) return undefined;
  return { node: undefined, segment, offsetMm, fromEnd: facts.text(location, "Anchor") === "FromEndNode" };
}

/** Roles of a part, by the name of their class. */
export function rolesOf(occurrence: XmlElement, pattern: RegExp): readonly XmlElement[] {
  return childrenOf(occurrence, "Role").filter((role) => pattern.test(role.type ?? ""));
}

/** What a person may read of a part: its description, or that of its place in the vehicle. */
export function describedBy({ facts }: VecFacts, thing: XmlElement | undefined): string | undefined {
  for (const element of [thing, facts.reference(thing, "RealizedUsageNode")]) {
    const text =
      facts.text(childOf(element, "Description"), "Value") ?? facts.text(childOf(element, "Abbreviation"), "Value");
    if (text !== undefined) return text;
  }
  return undefined;
}

/** What the file calls a thing. */
export function nameOf({ facts }: VecFacts, thing: XmlElement | undefined): string {
  return facts.text(thing, "Identification") ?? thing?.id ?? "";
}
