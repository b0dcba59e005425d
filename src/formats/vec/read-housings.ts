import type { SourceCavity, SourceConnector, SourceFitting } from "../xml/source/harness-source.ts";
import { uniqueNames } from "../xml/source/unique-names.ts";
import { childrenOf, type XmlElement } from "../xml/xml-element.ts";
import { readFittings, type Fittings } from "./read-fittings.ts";
import { describedBy, describing, fittedOf, nameOf, partOf, rolesOf, type VecFacts } from "./vec-facts.ts";

/** Connectors of a VEC file with what leads to them. */
export interface VecHousings {
  readonly connectors: readonly SourceConnector[];
  /** Key of the connector by the id of each of its cavity references. */
  readonly connectorOfCavity: ReadonlyMap<string, string>;
  /** Key of the connector by the id of its housing role. */
  readonly connectorOfRole: ReadonlyMap<string, string>;
}

/**
 * Reads parts with the role of a connector housing. The housings of components, which face the harness from the other side, are not
 * among them.
 */
export function readHousings(vec: VecFacts): VecHousings {
  const connectors: SourceConnector[] = [];
  const connectorOfCavity = new Map<string, string>();
  const connectorOfRole = new Map<string, string>();
  const fittings = readFittings(vec);
  for (const occurrence of vec.occurrences) {
    rolesOf(occurrence, /^ConnectorHousingRole$/u).forEach((role, at) => {
      const key = at === 0 ? (occurrence.id ?? "") : `${occurrence.id ?? ""} ${at}`;
      const cavities = readCavities(vec, role, fittings);
      const when = fittedOf(vec, [occurrence]);
      const spot = vec.placeOf.get(occurrence.id ?? "");
      for (const cavity of cavities) connectorOfCavity.set(cavity.key, key);
      if (role.id !== undefined) connectorOfRole.set(role.id, key);
      connectors.push({
        key,
        name: nameOf(vec, at === 0 ? occurrence : role),
        label: describedBy(vec, occurrence),
        use: "plug",
        box: undefined,
        cavities,
        part: at === 0 ? partOf(vec, occurrence) : undefined,
        fitted: when.fitted,
        node: spot?.node,
        at: vec.facts.place(occurrence),
        madeOf: [
          ...[occurrence, occurrence.parent, role, vec.facts.reference(role, "ConnectorHousingSpecification")],
          ...describing(vec, occurrence),
          ...(spot?.node === undefined ? [] : spot.madeOf),
          ...when.madeOf,
        ],
      });
    });
  }
  return { connectors, connectorOfCavity, connectorOfRole };
}

/** Cavities of a housing role, by number; the slot comes first where there are several. */
function readCavities(vec: VecFacts, role: XmlElement, fittings: Fittings): readonly SourceCavity[] {
  const { facts } = vec;
  const slots = childrenOf(role, "SlotReference").filter((slot) => childrenOf(slot, "CavityReference").length > 0);
  const cavities = slots.flatMap((slot, at) => {
    const ownSlot = facts.reference(slot, "ReferencedSlot");
    const slotName = facts.text(ownSlot, "SlotNumber") ?? String(at + 1);
    return childrenOf(slot, "CavityReference").flatMap((reference, place) => {
      if (reference.id === undefined) return [];
      const cavity = facts.reference(reference, "ReferencedCavity");
      const number = facts.text(cavity, "CavityNumber") ?? facts.text(reference, "Identification") ?? String(place + 1);
      const name = slots.length > 1 ? `${slotName}.${number}` : number;
      const fitted: readonly SourceFitting[] = fittings.parts.get(reference.id) ?? [];
      const seals = fittings.seals.get(reference.id) ?? [];
      const madeOf = [reference, cavity, slot, ownSlot, ...seals];
      return [{ key: reference.id, name, sealed: seals.length > 0, fitted, at: facts.place(reference), madeOf }];
    });
  });
  return uniqueNames(cavities);
}
