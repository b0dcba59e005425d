import { err, readQuantity } from "../../base/index.ts";
import type { FormatReader, Reading } from "../format-reader.ts";
import { importProblem, type ImportProblem } from "../import-problem.ts";
import { KBL_CLASSES, KBL_REFERENCES, makeKblFacts, type KblFacts, type SlotOwner } from "./kbl-facts.ts";
import { readXml, looksLikeXml, XML_LIMITS } from "../xml/read-xml.ts";
import { assembleSource } from "../xml/assemble-source.ts";
import type { HarnessReadOptions } from "../xml/assembly.ts";
import { checkReferences } from "../xml/source-facts.ts";
import type { HarnessSource, SourceBuild, SourceOption, SourceMating } from "../xml/harness-source.ts";
import { childrenOf, type XmlDocument, type XmlElement } from "../xml/xml-element.ts";
import { plugIntoBoxes, readBoxes } from "./read-boxes.ts";
import { readConnectors } from "./read-connectors.ts";
import { readTopology, readWires } from "./read-wires.ts";

/**
 * Reads KBL files, the harness description list, versions 2.3 to 2.5. One tolerant reader covers them all, since each version only
 * adds to the one before.
 *
 * @example
 * ```ts
 * import { kblReader, runReading } from "ohmward/formats";
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
export const kblReader: FormatReader<HarnessReadOptions> = {
  id: "kbl",
  label: "KBL harness description",
  extensions: [".kbl"],
  recognises: (bytes) => looksLikeXml(bytes, "KBL_container"),
  read: readKbl,
};

function* readKbl(bytes: Uint8Array, options: HarnessReadOptions): Reading {
  const tree = yield* readXml(bytes, { ...XML_LIMITS, mostBytes: options.mostBytes ?? XML_LIMITS.mostBytes });
  if (!tree.ok) return err([{ ...tree.error, at: { file: options.fileName, ...tree.error.at } }]);
  yield { share: 0.6, doing: "Understanding the file" };
  const { source, problems } = readKblSource(tree.value);
  if (source) {
    const ledgerOf = () => source.account.ledger(tree.value, options.fileName, KBL_CLASSES);
    return yield* assembleSource(source, options, problems, ledgerOf);
  }
  const list = problems.length > 0 ? problems : [importProblem("source-no-harness", {}, { wanted: "Harness" })];
  return err(list.map((problem) => ({ ...problem, at: { file: options.fileName, ...problem.at } })));
}

/** Namespace of all versions of KBL from 2.3 on. Source: the KBL schemas. */
const KBL_NAMESPACE = "http://www.prostep.org/Car_electric_container/KBL2.3/KBLSchema";

/** What a KBL file says, and the problems of reading it; no source where it holds none. */
interface KblSource {
  readonly source: HarnessSource | undefined;
  readonly problems: readonly ImportProblem[];
}

/**
 * Reads what a KBL file says, without putting it together.
 *
 * @param document The file as a tree.
 * @returns The source, or undefined where the file holds no harness, with the problems found.
 */
export function readKblSource(document: XmlDocument): KblSource {
  const { root } = document;
  const at = { line: root.line };
  if (root.name !== "KBL_container") {
    const facts = { name: root.name.slice(0, 80), wanted: "KBL_container" };
    return { source: undefined, problems: [importProblem("xml-root-unknown", at, facts)] };
  }
  if (root.namespace !== KBL_NAMESPACE) {
    const facts = { namespace: (root.namespace ?? "none").slice(0, 200), wanted: KBL_NAMESPACE };
    return { source: undefined, problems: [importProblem("xml-namespace-unknown", at, facts)] };
  }
  const references = checkReferences(document, KBL_REFERENCES);
  const kbl = makeKblFacts(document);
  if (kbl.harnesses.length === 0) {
    const problem = importProblem("source-no-harness", at, { wanted: "Harness" });
    return { source: undefined, problems: [...references.problems, problem] };
  }
  const boxes = readBoxes(kbl);
  const plugs = readConnectors(kbl);
  const { account } = kbl.facts;
  account.keep([root, ...kbl.harnesses], "head of the document");
  account.leaveOut(childrenOf(root, "Assembly_part"), "of assemblies only what wires are contacted at is read");
  account.leaveOut(
    kbl.harnesses
      .flatMap((harness) => [harness, ...childrenOf(harness, "Module")])
      .flatMap((owner) => childrenOf(owner, "Module_configuration")),
    "nothing that is kept needs it to say when it is fitted",
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
  return { source, problems: [...references.problems, ...kbl.facts.problems] };
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
  "Abbreviation",
  "Description",
  "Car_classification_level_4",
  "Car_classification_level_3",
  "Car_classification_level_2",
  "Part_number",
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
    options.push({
      key: module.id,
      name,
      label: said(texts) ?? name,
      at: facts.place(module),
      madeOf: [module, family],
    });
  }
  return { options, builds: readBuilds(kbl) };
}

function readBuilds({ facts, harnesses }: KblFacts): SourceBuild[] {
  const all = harnesses.flatMap((harness) => childrenOf(harness, "Harness_configuration"));
  const nameOf = (configuration: XmlElement, field: string): string | undefined => facts.text(configuration, field);
  const field = BUILD_NAMES.find((name) => {
    const names = new Set(all.map((each) => nameOf(each, name)));
    return names.size === all.length && !names.has(undefined);
  });
  return all.map((configuration, at) => {
    const texts = BUILD_NAMES.map((name) => nameOf(configuration, name));
    const name =
      (field === undefined ? undefined : nameOf(configuration, field)) ?? configuration.id ?? `build-${at + 1}`;
    return {
      key: configuration.id ?? name,
      name,
      label: said(texts) ?? name,
      options: facts
        .references(configuration, "Modules")
        .flatMap(({ id, name: kind }) => (kind === "Module" && id ? [id] : [])),
      at: facts.place(configuration),
      madeOf: [configuration],
    };
  });
}

function said(texts: readonly (string | undefined)[]): string | undefined {
  const given = [...new Set(texts.filter((text) => text !== undefined && text !== "-"))];
  return given.length === 0 ? undefined : given.join(", ");
}

/** Reads mated slots and cavities, which 2.4 and later know, of connectors and of the connectors of boxes; each pair once. */
function readMatings({ facts }: KblFacts, owners: readonly SlotOwner[]): readonly SourceMating[] {
  const keyOf = new Map(owners.map(({ key, element }) => [element, key]));
  const matings = new Map<
    string,
    Omit<SourceMating, "connectors" | "cavities"> & { connectors: [string, string]; cavities: [string, string][] }
  >();
  const take = ({ key, element }: SlotOwner, target: XmlElement, pair: [string, string] | undefined): void => {
    const other = ownerOf(target, keyOf);
    if (other === undefined || other === key) return;
    const isTurned = matings.has(`${other} ${key}`);
    const ids: [string, string] = isTurned ? [other, key] : [key, other];
    const mating = matings.get(ids.join(" ")) ?? {
      connectors: ids,
      cavities: [],
      at: facts.place(element),
      madeOf: [],
    };
    matings.set(ids.join(" "), mating);
    if (!pair) return;
    const turned: [string, string] = isTurned ? [pair[1], pair[0]] : pair;
    if (!mating.cavities.some((known) => known[0] === turned[0] && known[1] === turned[1]))
      mating.cavities.push(turned);
  };
  for (const owner of owners) {
    for (const slot of childrenOf(owner.element, "Slots")) {
      for (const other of facts.references(slot, "Mated_slots")) take(owner, other, undefined);
      for (const cavity of childrenOf(slot, "Cavities")) {
        for (const other of facts.references(cavity, "Mated_cavities")) {
          if (cavity.id !== undefined && other.id !== undefined) take(owner, other, [cavity.id, other.id]);
        }
      }
    }
  }
  return [...matings.values()];
}

function ownerOf(element: XmlElement, keyOf: ReadonlyMap<XmlElement, string>): string | undefined {
  let current: XmlElement | undefined = element;
  while (current && !keyOf.has(current)) current = current.parent;
  return current && keyOf.get(current);
}
