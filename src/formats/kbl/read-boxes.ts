import type {
  SourceBox,
  SourceConnector,
  SourceContact,
  SourceElement,
  SourceTerminal,
} from "../xml/source/harness-source.ts";
import { childrenOf, type XmlElement } from "../xml/xml-element.ts";
import { elementsOfPart, type MountedPart } from "../xml/source/mounted-part.ts";
import { fittedOf, innerName, partOf, targetOf, type KblFacts } from "./kbl-facts.ts";
import { labelOf, readCavities, readContacts, readFittings } from "./read-connectors.ts";
import type { SlotOwner } from "./read-matings.ts";
import { readMountedParts } from "./read-mounted-parts.ts";

/** What a KBL file says of its component boxes: fuse and relay carriers, with what is mounted in them. */
export interface KblBoxes {
  readonly boxes: readonly SourceBox[];
  readonly connectors: readonly SourceConnector[];
  readonly contacts: readonly SourceContact[];
  readonly owners: readonly SlotOwner[];
}

/** Reads component boxes with their connectors, inner connections, fuses and relays. */
export function readBoxes(kbl: KblFacts): KblBoxes {
  const elements = kbl.harnesses
    .flatMap((harness) => childrenOf(harness, "Component_box_occurrence"))
    .filter((box) => box.id !== undefined);
  const mounted = readMountedParts(kbl);
  const connectors = elements.map((box) => boxConnectors(kbl, box));
  return {
    owners: elements.flatMap((box) =>
      childrenOf(box, "Component_box_connectors").map((element, at) => ({ key: keyOf(box, element, at), element })),
    ),
    boxes: elements.map((box, at) => readBox(kbl, box, { connectors: connectors[at] ?? [], mounted })),
    connectors: connectors.flat(),
    contacts: elements.flatMap((box, at) => {
      const ownerOf = new Map<string, string>();
      for (const connector of connectors[at] ?? []) {
        for (const cavity of connector.cavities) ownerOf.set(cavity.key, connector.key);
      }
      return readContacts(box, (cavity) => ownerOf.get(cavity) ?? "");
    }),
  };
}

/** In 2.3 and 2.4 the occurrence may go without an id of its own kind; its place in the box tells it apart. */
function keyOf(box: XmlElement, connector: XmlElement, at: number): string {
  return connector.id ?? `${box.id ?? ""} ${at}`;
}

function boxConnectors(kbl: KblFacts, box: XmlElement): SourceConnector[] {
  const { facts, nodeOf } = kbl;
  const boxName = facts.text(box, "Id") ?? box.id ?? "";
  return childrenOf(box, "Component_box_connectors").flatMap((connector, at) => {
    const key = keyOf(box, connector, at);
    const part = facts.reference(connector, "Part");
    const own = facts.text(part, "Id") ?? String(at + 1);
    const slots = childrenOf(connector, "Slots");
    const cavities = readCavities(kbl, slots, readFittings(kbl, box, slots));
    const when = fittedOf(kbl, [box]);
    const names = [connector.id, box.id, ...cavities.map((cavity) => cavity.key)];
    return [
      {
        key,
        name: `${boxName}.${own}`,
        label: labelOf(facts, box),
        use: "plug" as const,
        box: box.id,
        cavities,
        part: undefined,
        fitted: when.fitted,
        node: names.map((id) => nodeOf.get(id ?? "")).find((id) => id !== undefined),
        at: facts.place(connector),
        madeOf: [connector, part, ...when.madeOf],
      },
    ];
  });
}

interface BoxParts {
  readonly connectors: readonly SourceConnector[];
  readonly mounted: ReadonlyMap<string, readonly MountedPart[]>;
}

function readBox(kbl: KblFacts, box: XmlElement, { connectors, mounted }: BoxParts): SourceBox {
  const { facts } = kbl;
  const parts = mounted.get(box.id ?? "") ?? [];
  facts.account.leaveOut(childrenOf(box, "Component_slots"), "nothing that is read is mounted in it");
  const bars = innerConnections(kbl, box, connectors);
  const when = fittedOf(kbl, [box]);
  return {
    key: box.id ?? "",
    name: facts.text(box, "Id") ?? box.id ?? "",
    label: labelOf(facts, box),
    kind: "distribution",
    part: partOf(kbl, facts.reference(box, "Part")),
    elements: [...bars, ...parts.flatMap((part) => elementsOfPart(facts, part))],
    fitted: when.fitted,
    note: undefined,
    at: facts.place(box),
    madeOf: [box, ...when.madeOf],
  };
}

/** Connections inside the box: each joins everything it names, as one piece of metal. */
function innerConnections(kbl: KblFacts, box: XmlElement, connectors: readonly SourceConnector[]): SourceElement[] {
  const { facts } = kbl;
  const part = targetOf(kbl, box, "Part", ["Component_box"]);
  const outer = new Map<string, string>();
  for (const connector of connectors) {
    for (const cavity of connector.cavities) {
      const of = facts.reference(facts.document.ids.get(cavity.key), "Part")?.id;
      if (of !== undefined) outer.set(of, cavity.key);
    }
  }
  return childrenOf(part, "Connections").flatMap((connection, at) => {
    const terminals: SourceTerminal[] = [];
    const madeOf = [connection, ...facts.references(connection, "Component_cavities")];
    for (const cavity of facts.references(connection, "Cavities")) {
      const key = outer.get(cavity.id ?? "");
      if (key !== undefined) terminals.push({ cavity: key });
    }
    for (const cavity of facts.references(connection, "Component_cavities")) {
      terminals.push({ inner: innerName(kbl, cavity) });
    }
    const name = facts.text(connection, "Id") ?? String(at + 1);
    const [first, ...others] = terminals;
    if (!first || others.length === 0) facts.account.leaveOut(madeOf, "it joins nothing that is there");
    if (!first) return [];
    return others.map((other) => ({
      element: { id: `bar-${name}`, kind: "bar" as const },
      between: [first, other] as const,
      fitted: undefined,
      madeOf: [...madeOf, ...madeOf.map((each) => each.parent)],
    }));
  });
}
