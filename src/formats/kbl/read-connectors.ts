import { idsIn } from "../xml/source/check-references.ts";
import type {
  ConnectorUse,
  SourceCavity,
  SourceConnector,
  SourceContact,
  SourceMating,
} from "../xml/source/harness-source.ts";
import type { SourceFacts } from "../xml/source/source-facts.ts";
import { uniqueNames } from "../xml/source/unique-names.ts";
import { childrenOf, type XmlElement } from "../xml/xml-element.ts";
import { fittedOf, targetOf, type KblFacts } from "./kbl-facts.ts";

/** What a KBL file says of its connectors, splices and ring terminals. */
export interface KblConnectors {
  readonly connectors: readonly SourceConnector[];
  readonly contacts: readonly SourceContact[];
  readonly matings: readonly SourceMating[];
}

/** Reads connector occurrences: of the harness, and those inside assemblies that a wire is contacted at. */
export function readConnectors(kbl: KblFacts): KblConnectors {
  const own = kbl.harnesses.flatMap((harness) => childrenOf(harness, "Connector_occurrence"));
  const inAssemblies = childrenOf(kbl.facts.document.root, "Assembly_part")
    .flatMap((assembly) => childrenOf(assembly, "Connector_occurrence"))
    .filter((connector) => childrenOf(connector, "Contact_points").length > 0);
  const elements = [...own, ...inAssemblies].filter((connector) => connector.id !== undefined);
  return {
    connectors: elements.map((connector) => readConnector(kbl, connector)),
    contacts: elements.flatMap((connector) => readContacts(connector)),
    matings: readMatings(kbl.facts, elements),
  };
}

/** Contact points of a connector or box. A cavity that does not exist stays out; the check of references reports it. */
export function readContacts(
  owner: XmlElement,
  connectorOf: (cavity: string) => string = () => owner.id ?? "",
): SourceContact[] {
  return childrenOf(owner, "Contact_points").flatMap((contact) => {
    const cavities = childrenOf(contact, "Contacted_cavity").flatMap((each) => idsIn(each.text));
    if (contact.id === undefined) return [];
    return [{ key: contact.id, connector: connectorOf(cavities[0] ?? ""), cavities }];
  });
}

function readConnector(kbl: KblFacts, connector: XmlElement): SourceConnector {
  const { facts, nodeOf } = kbl;
  const key = connector.id ?? "";
  const housing = targetOf(kbl, connector, "Part", ["Connector_housing"]);
  const terminals = childrenOf(connector, "Contact_points").flatMap((contact) =>
    facts.references(contact, "Associated_parts"),
  );
  const special = terminals.find((part) => part.name === "Special_terminal_occurrence");
  const use = useOf(facts, connector, housing);
  const sealed = sealedCavities(facts, connector);
  const names = [key, special?.id, ...terminals.map((part) => part.id), ...cavityIds(connector)];
  const node = names.map((id) => nodeOf.get(id ?? "")).find((id) => id !== undefined);
  return {
    key,
    name: facts.text(connector, "Id") ?? key,
    label: labelOf(facts, connector) ?? (use === "ring" ? labelOf(facts, special) : undefined),
    use,
    box: undefined,
    cavities: readCavities(kbl, childrenOf(connector, "Slots"), sealed),
    fitted: fittedOf(kbl, [connector, ...(use === "ring" ? [special] : [])]),
    node,
    at: facts.place(connector),
  };
}

/** What a person may read of a thing: its description, unless that says nothing. */
export function labelOf(facts: SourceFacts, element: XmlElement | undefined): string | undefined {
  const text = facts.text(element, "Description");
  return text === "-" ? undefined : text;
}

const USES: ReadonlyMap<string, ConnectorUse> = new Map([
  ["splice", "splice"],
  ["ring terminal", "ring"],
  ["no end", "open-end"],
  ["dangler", "open-end"],
]);

function useOf(facts: SourceFacts, connector: XmlElement, housing: XmlElement | undefined): ConnectorUse {
  const isSplice = /splice/iu.test(facts.text(housing, "Housing_type") ?? "");
  return USES.get(facts.text(connector, "Usage") ?? "") ?? (isSplice ? "splice" : "plug");
}

function sealedCavities(facts: SourceFacts, connector: XmlElement): ReadonlySet<string> {
  const sealed = new Set<string>();
  for (const contact of childrenOf(connector, "Contact_points")) {
    const parts = facts.references(contact, "Associated_parts");
    if (!parts.some((part) => part.name === "Cavity_seal_occurrence")) continue;
    for (const each of childrenOf(contact, "Contacted_cavity")) for (const id of idsIn(each.text)) sealed.add(id);
  }
  return sealed;
}

function cavityIds(connector: XmlElement): readonly (string | undefined)[] {
  return childrenOf(connector, "Slots").flatMap((slot) => childrenOf(slot, "Cavities").map((cavity) => cavity.id));
}

/** Cavities of the slots of a connector, by number; the slot comes first where there are several. */
export function readCavities(
  { facts }: KblFacts,
  slots: readonly XmlElement[],
  sealed: ReadonlySet<string> = new Set(),
): readonly SourceCavity[] {
  const filled = slots.filter((slot) => childrenOf(slot, "Cavities").length > 0);
  const cavities = filled.flatMap((slot, at) => {
    const slotName = facts.text(facts.reference(slot, "Part"), "Id") ?? String(at + 1);
    return childrenOf(slot, "Cavities").flatMap((cavity, place) => {
      if (cavity.id === undefined) return [];
      const number = facts.text(facts.reference(cavity, "Part"), "Cavity_number") ?? String(place + 1);
      const name = filled.length > 1 ? `${slotName}.${number}` : number;
      return [{ key: cavity.id, name, sealed: sealed.has(cavity.id), at: facts.place(cavity) }];
    });
  });
  return uniqueNames(cavities);
}

/** Mated slots and cavities, which 2.4 and later know; each pair once. */
function readMatings(facts: SourceFacts, connectors: readonly XmlElement[]): readonly SourceMating[] {
  const matings = new Map<
    string,
    { connectors: [string, string]; cavities: [string, string][]; at: SourceMating["at"] }
  >();
  const take = (from: XmlElement, target: XmlElement, pair: [string, string] | undefined): void => {
    const owner = connectorAround(target);
    if (owner?.id === undefined || from.id === undefined || owner === from) return;
    const isTurned = matings.has(`${owner.id} ${from.id}`);
    const ids: [string, string] = isTurned ? [owner.id, from.id] : [from.id, owner.id];
    const mating = matings.get(ids.join(" ")) ?? { connectors: ids, cavities: [], at: facts.place(from) };
    matings.set(ids.join(" "), mating);
    if (!pair) return;
    const turned: [string, string] = isTurned ? [pair[1], pair[0]] : pair;
    if (!mating.cavities.some((known) => known[0] === turned[0] && known[1] === turned[1]))
      mating.cavities.push(turned);
  };
  for (const connector of connectors) {
    for (const slot of childrenOf(connector, "Slots")) {
      for (const other of facts.references(slot, "Mated_slots")) take(connector, other, undefined);
      for (const cavity of childrenOf(slot, "Cavities")) {
        for (const other of facts.references(cavity, "Mated_cavities")) {
          if (cavity.id !== undefined && other.id !== undefined) take(connector, other, [cavity.id, other.id]);
        }
      }
    }
  }
  return [...matings.values()];
}

function connectorAround(element: XmlElement): XmlElement | undefined {
  let current: XmlElement | undefined = element;
  while (current && current.name !== "Connector_occurrence") current = current.parent;
  return current;
}
