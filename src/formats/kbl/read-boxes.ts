import type {
  SourceBox,
  SourceConnector,
  SourceContact,
  SourceElement,
  SourceTerminal,
} from "../xml/source/harness-source.ts";
import { childrenOf, type XmlElement } from "../xml/xml-element.ts";
import { elementsOfPart, type MountedPart } from "../xml/source/mounted-part.ts";
import { fittedOf, innerName, targetOf, type KblFacts } from "./kbl-facts.ts";
import { labelOf, readCavities, readContacts } from "./read-connectors.ts";
import { readMountedParts } from "./read-mounted-parts.ts";

/** What a KBL file says of its component boxes: fuse and relay carriers, with what is mounted in them. */
export interface KblBoxes {
  readonly boxes: readonly SourceBox[];
  readonly connectors: readonly SourceConnector[];
  readonly contacts: readonly SourceContact[];
}

/** Reads component boxes with their connectors, inner connections, fuses and relays. */
export function readBoxes(kbl: KblFacts): KblBoxes {
  const elements = kbl.harnesses
    .flatMap((harness) => childrenOf(harness, "Component_box_occurrence"))
    .filter((box) => box.id !== undefined);
  const mounted = readMountedParts(kbl);
  const connectors = elements.map((box) => boxConnectors(kbl, box));
  return {
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

function boxConnectors(kbl: KblFacts, box: XmlElement): SourceConnector[] {
  const { facts, nodeOf } = kbl;
  const boxName = facts.text(box, "Id") ?? box.id ?? "";
  return childrenOf(box, "Component_box_connectors").flatMap((connector, at) => {
    // In 2.3 and 2.4 the occurrence may go without an id of its own kind; its place in the box tells it apart.
    const key = connector.id ?? `${box.id ?? ""} ${at}`;
    const own = facts.text(facts.reference(connector, "Part"), "Id") ?? String(at + 1);
    const cavities = readCavities(kbl, childrenOf(connector, "Slots"));
    const names = [connector.id, box.id, ...cavities.map((cavity) => cavity.key)];
    return [
      {
        key,
        name: `${boxName}.${own}`,
        label: labelOf(facts, box),
        use: "plug" as const,
        box: box.id,
        cavities,
        fitted: fittedOf(kbl, [box]),
        node: names.map((id) => nodeOf.get(id ?? "")).find((id) => id !== undefined),
        at: facts.place(connector),
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
  const bars = innerConnections(kbl, box, connectors);
  return {
    key: box.id ?? "",
    name: facts.text(box, "Id") ?? box.id ?? "",
    label: labelOf(facts, box),
    kind: "distribution",
    elements: [...bars, ...parts.flatMap((part) => elementsOfPart(facts, part))],
    fitted: fittedOf(kbl, [box]),
    note: undefined,
    at: facts.place(box),
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
    for (const cavity of facts.references(connection, "Cavities")) {
      const key = outer.get(cavity.id ?? "");
      if (key !== undefined) terminals.push({ cavity: key });
    }
    for (const cavity of facts.references(connection, "Component_cavities")) {
      terminals.push({ inner: innerName(kbl, cavity) });
    }
    const name = facts.text(connection, "Id") ?? String(at + 1);
    const [first, ...others] = terminals;
    if (!first) return [];
    return others.map((other) => ({
      element: { id: `bar-${name}`, kind: "bar" as const },
      between: [first, other] as const,
      fitted: undefined,
    }));
  });
}
