import { readQuantity } from "../../base/index.ts";
import { KBL_CLASSES, KBL_REFERENCES, makeKblFacts, type KblFacts, type SlotOwner } from "./kbl-facts.ts";
import { harnessReader, type HarnessFormat, type SourceRead } from "../xml/harness-format.ts";
import type { HarnessSource, SourceBuild, SourceOption, SourceMating } from "../xml/harness-source.ts";
import { childrenOf, type XmlDocument, type XmlElement } from "../xml/xml-element.ts";
import { plugIntoBoxes, readBoxes } from "./read-boxes.ts";
import { readConnectors } from "./read-connectors.ts";
import { readTopology, readWires } from "./read-wires.ts";

/** The format KBL. Source: the KBL schemas. */
export const KBL: HarnessFormat = {
  id: "kbl",
  label: "KBL harness description",
  root: "KBL_container",
  // Of all versions from 2.3 on.
  namespace: "http://www.prostep.org/Car_electric_container/KBL2.3/KBLSchema",
  wanted: "Harness",
  references: KBL_REFERENCES,
  classOf: KBL_CLASSES,
  read: readKbl,
};

/**
 * Reads KBL files, the harness description list, versions 2.3 to 2.5. One tolerant reader covers them all, since each version only
 * adds to the one before.
 *
 * @example
 * ```ts
 * import { kblReader, runReading } from "ohmward/import-export";
 * const text = `<k:KBL_container xmlns:k="http://www.prostep.org/Car_electric_container/KBL2.3/KBLSchema">
 *   <Connector_housing id="h"><Slots id="s"><Cavities id="c"><Cavity_number>1</Cavity_number></Cavities></Slots></Connector_housing>
 *   <Harness id="n"><Connector_occurrence id="x"><Id>B3.X</Id><Description>Rail pressure sensor</Description><Part>h</Part>
 *     <Slots id="t"><Part>s</Part><Cavities id="d"><Part>c</Part></Cavities></Slots></Connector_occurrence></Harness>
 * </k:KBL_container>`;
 * const bytes = Uint8Array.from(text, (character) => character.charCodeAt(0));
 * const made = runReading(kblReader.read(bytes, { fileName: "sensor.kbl" }));
 * expect(made?.ok && made.value.document.connectors.map((connector) => connector.label)).toEqual(["Rail pressure sensor"]);
 * ```
 * Source: VDA recommendation 4964, Harness Description List (KBL); schemas by prostep ivip. What is read is told in docs/formats/kbl.md.
 */
export const kblReader = harnessReader(KBL);

function readKbl(document: XmlDocument): SourceRead {
  const { root } = document;
  const kbl = makeKblFacts(document);
  if (kbl.harnesses.length === 0) return { source: undefined, problems: [] };
  const boxes = readBoxes(kbl);
  const plugs = readConnectors(kbl);
  const { account } = kbl.facts;
  account.keep([root, ...kbl.harnesses], "head of the document");
  account.leaveOut(childrenOf(root, "Assembly_part"), "only the parts of assemblies that wires end at are read");
  account.leaveOut(
    kbl.harnesses
      .flatMap((harness) => [harness, ...childrenOf(harness, "Module")])
      .flatMap((owner) => childrenOf(owner, "Module_configuration")),
    "no item that is kept needs it",
  );
  const source: HarnessSource = {
    account,
    ...aboutOf(kbl),
    ...readOptions(kbl),
    ...readTopology(kbl),
    ...plugIntoBoxes(kbl, {
      boxes: boxes.boxes,
      connectors: [...boxes.connectors, ...plugs.connectors],
      contacts: [...boxes.contacts, ...plugs.contacts],
      wires: readWires(kbl),
      matings: readMatings(kbl, [...boxes.owners, ...plugs.owners]),
    }),
  };
  return { source, problems: kbl.facts.problems };
}

function aboutOf({ facts, harnesses }: KblFacts) {
  const [harness] = harnesses;
  const number = facts.text(harness, "Part_number");
  const description = facts.text(harness, "Description");
  const version = facts.document.root.attributes.get("version_id");
  const notes = harnesses.flatMap((each) => {
    const copyright = facts.text(each, "Copyright_note");
    return copyright === undefined ? [] : [`Copyright note of the file: ${copyright}`];
  });
  const title = description ?? number ?? "Harness";
  const parts = [
    `KBL ${version ?? "of unknown version"}`,
    number && `part ${number}`,
    facts.text(harness, "Company_name"),
  ];
  return {
    title,
    source: parts.filter((part) => part !== undefined && part !== "").join(", "),
    notes,
    harness: number ?? description,
    nominalVolt: nominalVolt({ facts, harnesses }),
  };
}

/** The nominal voltage, where all connections that give one give the same plain number of volts. */
function nominalVolt({ facts, harnesses }: Pick<KblFacts, "facts" | "harnesses">): number | undefined {
  const texts = new Set(
    harnesses
      .flatMap((harness) => childrenOf(harness, "Connection"))
      .map((connection) => facts.text(connection, "Nominal_voltage"))
      .filter((text) => text !== undefined),
  );
  const [only] = texts;
  const read = texts.size === 1 ? readQuantity(only ?? "", { units: ["V"] }) : undefined;
  return read?.kind === "value" && read.value > 0 && read.value <= 1000 ? read.value : undefined;
}

/** What a configuration may be named by, in order; the first that tells them all apart is taken. */
const BUILD_NAMES = [
  ...["Abbreviation", "Description", "Car_classification_level_4", "Car_classification_level_3"],
  ...["Car_classification_level_2", "Part_number"],
];

/** Reads modules as options and harness configurations as builds. */
function readOptions(kbl: KblFacts): { readonly options: SourceOption[]; readonly builds: SourceBuild[] } {
  const { facts, harnesses } = kbl;
  const options: SourceOption[] = [];
  for (const module of harnesses.flatMap((harness) => childrenOf(harness, "Module"))) {
    if (module.id === undefined) continue;
    const family = facts.reference(module, "Of_family");
    const texts = [
      facts.text(family, "Description") ?? facts.text(family, "Id"),
      facts.text(module, "Description"),
      ...childrenOf(module, "Module_configuration").map((each) => facts.text(each, "Logistic_control_information")),
    ];
    const name = facts.text(module, "Part_number") ?? module.id;
    const madeOf = [module, family];
    options.push({ key: module.id, name, label: said(texts) ?? name, at: facts.place(module), madeOf });
  }
  return { options, builds: readBuilds(kbl) };
}

function readBuilds({ facts, harnesses }: KblFacts): SourceBuild[] {
  const all = harnesses.flatMap((harness) => childrenOf(harness, "Harness_configuration"));
  const field = BUILD_NAMES.find((name) => {
    const names = new Set(all.map((each) => facts.text(each, name)));
    return names.size === all.length && !names.has(undefined);
  });
  return all.map((configuration, at) => {
    const own = field === undefined ? undefined : facts.text(configuration, field);
    const name = own ?? configuration.id ?? `build-${at + 1}`;
    const label = said(BUILD_NAMES.map((each) => facts.text(configuration, each))) ?? name;
    const modules = facts.references(configuration, "Modules").filter((each) => each.name === "Module");
    const options = modules.flatMap(({ id }) => (id ? [id] : []));
    const key = configuration.id ?? name;
    return { key, name, label, options, at: facts.place(configuration), madeOf: [configuration] };
  });
}

function said(texts: readonly (string | undefined)[]): string | undefined {
  const given = [...new Set(texts.filter((text) => text !== undefined && text !== "-"))];
  return given.length === 0 ? undefined : given.join(", ");
}

/** Reads mated slots and cavities, which 2.4 and later know, of connectors and of the connectors of boxes; each pair once. */
function readMatings({ facts }: KblFacts, owners: readonly SlotOwner[]): readonly SourceMating[] {
  const keyOf = new Map(owners.map(({ key, element }) => [element, key]));
  const matings = new Map<string, SourceMating & { readonly cavities: [string, string][] }>();
  const take = ({ key, element }: SlotOwner, target: XmlElement, pair?: [string, string]): void => {
    const other = ownerOf(target, keyOf);
    if (other === undefined || other === key) return;
    const turned = matings.get(`${other} ${key}`);
    const connectors: [string, string] = [key, other];
    const known = turned ?? matings.get(connectors.join(" "));
    const mating = known ?? { connectors, cavities: [], at: facts.place(element), madeOf: [] };
    if (!known) matings.set(connectors.join(" "), mating);
    if (!pair) return;
    const [one, two] = turned ? pair.toReversed() : pair;
    if (one === undefined || two === undefined) return;
    if (!mating.cavities.some(([first, second]) => first === one && second === two)) mating.cavities.push([one, two]);
  };
  for (const owner of owners) {
    for (const slot of childrenOf(owner.element, "Slots")) {
      for (const other of facts.references(slot, "Mated_slots")) take(owner, other);
      for (const cavity of childrenOf(slot, "Cavities"))
        for (const other of facts.references(cavity, "Mated_cavities"))
          if (cavity.id !== undefined && other.id !== undefined) take(owner, other, [cavity.id, other.id]);
    }
  }
  return [...matings.values()];
}

function ownerOf(element: XmlElement, keyOf: ReadonlyMap<XmlElement, string>): string | undefined {
  let current: XmlElement | undefined = element;
  while (current && !keyOf.has(current)) current = current.parent;
  return current && keyOf.get(current);
}
