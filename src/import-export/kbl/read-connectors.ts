import { Fittings } from "../xml/mounted-part.ts";
import { idsIn, uniqueNames, type SourceFacts } from "../xml/source-facts.ts";
import type {
  ConnectorUse,
  SourceCavity,
  SourceConnector,
  SourceContact,
  SourceFitting,
  SourcePart,
} from "../xml/harness-source.ts";
import { childrenOf, type XmlElement } from "../xml/xml-element.ts";
import { fittedOf, partOf, targetOf, type KblFacts } from "./kbl-facts.ts";

/** Reads connector occurrences, splices and rings among them: of the harness, and those inside assemblies that a wire is contacted at. */
export function readConnectors(kbl: KblFacts) {
  const own = kbl.harnesses.flatMap((harness) => childrenOf(harness, "Connector_occurrence"));
  const inAssemblies = childrenOf(kbl.facts.document.root, "Assembly_part")
    .flatMap((assembly) => childrenOf(assembly, "Connector_occurrence"))
    .filter((connector) => childrenOf(connector, "Contact_points").length > 0);
  const elements = [...own, ...inAssemblies].filter((connector) => connector.id !== undefined);
  return {
    connectors: elements.map((connector) => readConnector(kbl, connector)),
    contacts: elements.flatMap((connector) => readContacts(connector)),
    owners: elements.map((element) => ({ key: element.id ?? "", element })),
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
    return [{ key: contact.id, connector: connectorOf(cavities[0] ?? ""), cavities, madeOf: [contact] }];
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
  const cavities = readCavities(kbl, childrenOf(connector, "Slots"), readFittings(kbl, connector));
  const when = fittedOf(kbl, [connector, ...(use === "ring" ? [special] : [])]);
  const names = [key, special?.id, ...terminals.map((part) => part.id), ...cavityIds(connector)];
  const node = names.map((id) => nodeOf.get(id ?? "")).find((id) => id !== undefined);
  return {
    key,
    name: facts.text(connector, "Id") ?? key,
    label: labelOf(facts, connector) ?? (use === "ring" ? labelOf(facts, special) : undefined),
    use,
    box: undefined,
    cavities,
    part: ownPart(kbl, use, [partOf(kbl, housing), ...cavities.flatMap((cavity) => cavity.fitted)]),
    fitted: when.fitted,
    node,
    at: facts.place(connector),
    madeOf: [connector, ...when.madeOf],
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

/** The part that a connector is: of a plug its housing, of a ring its terminal, of a splice either. It is kept with one only. */
function ownPart(
  { facts }: KblFacts,
  use: ConnectorUse,
  [housing, ...fitted]: readonly (SourcePart | undefined)[],
): SourcePart | undefined {
  if (use === "plug" || use === "open-end") return housing;
  const [own, ...others] = (use === "ring" ? [...fitted, housing] : [housing, ...fitted]).filter((part) => part);
  for (const other of others) facts.account.leaveOut(other?.madeOf ?? [], `a ${use} is kept with one part`);
  return own;
}

const FITTINGS: ReadonlyMap<string, SourceFitting["what"]> = new Map([
  ["Terminal_occurrence", "terminal"],
  ["Special_terminal_occurrence", "terminal"],
  ["Cavity_seal_occurrence", "seal"],
  ["Cavity_plug_occurrence", "plug"],
]);

/** Reads what is fitted in the cavities of a connector or box: what contact points name, and plugs. */
export function readFittings(kbl: KblFacts, owner: XmlElement, slots = childrenOf(owner, "Slots")): Fittings {
  const { facts } = kbl;
  const fittings = new Fittings(facts.account);
  const take = (cavity: string, occurrence: XmlElement): void => {
    const part = partOf(kbl, facts.reference(occurrence, "Part"), occurrence);
    fittings.take(cavity, FITTINGS.get(occurrence.name), { part, madeOf: [occurrence] });
  };
  for (const contact of childrenOf(owner, "Contact_points")) {
    const cavities = childrenOf(contact, "Contacted_cavity").flatMap((each) => idsIn(each.text));
    for (const part of facts.references(contact, "Associated_parts")) {
      if (cavities.length === 0) facts.account.leaveOut([part], "its contact point is in no cavity");
      for (const id of cavities) take(id, part);
    }
  }
  for (const cavity of slots.flatMap((slot) => childrenOf(slot, "Cavities"))) {
    for (const plug of facts.references(cavity, "Associated_plug")) take(cavity.id ?? "", plug);
  }
  return fittings;
}

function cavityIds(connector: XmlElement): readonly (string | undefined)[] {
  return childrenOf(connector, "Slots").flatMap((slot) => childrenOf(slot, "Cavities").map((cavity) => cavity.id));
}

/** Cavities of the slots of a connector, by number; the slot comes first where there are several. */
export function readCavities(
  { facts }: KblFacts,
  slots: readonly XmlElement[],
  fittings: Fittings,
): readonly SourceCavity[] {
  const filled = slots.filter((slot) => childrenOf(slot, "Cavities").length > 0);
  const cavities = filled.flatMap((slot, at) => {
    const slotPart = facts.reference(slot, "Part");
    const slotName = facts.text(slotPart, "Id") ?? String(at + 1);
    return childrenOf(slot, "Cavities").flatMap((cavity, place) => {
      if (cavity.id === undefined) return [];
      const part = facts.reference(cavity, "Part");
      const number = facts.text(part, "Cavity_number") ?? String(place + 1);
      const name = filled.length > 1 ? `${slotName}.${number}` : number;
      const madeOf = [cavity, part, slot, slotPart];
      return [fittings.cavity({ key: cavity.id, name, at: facts.place(cavity), madeOf })];
    });
  });
  return uniqueNames(cavities);
}
