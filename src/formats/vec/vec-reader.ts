import { err } from "../../base/index.ts";
import type { FormatReader, Reading } from "../format-reader.ts";
import { importProblem, type ImportProblem } from "../import-problem.ts";
import { looksLikeXml, readXml, XML_LIMITS } from "../xml/read-xml.ts";
import { VEC_CLASSES, VEC_REFERENCES } from "./vec-classes.ts";
import { assembleSource } from "../xml/assemble-source.ts";
import type { HarnessReadOptions } from "../xml/assembly.ts";
import { checkReferences } from "../xml/source-facts.ts";
import type { HarnessSource, SourceOption } from "../xml/harness-source.ts";
import { childOf, childrenOf, type XmlDocument } from "../xml/xml-element.ts";
import { readContacting, readHousings, readMatings } from "./read-contacting.ts";
import { readComponents } from "./read-components.ts";
import { readTopology, readWires } from "./read-wires.ts";
import { describedBy, describing, makeVecFacts, withHolders, type VecFacts } from "./vec-facts.ts";

/**
 * Reads VEC files, the vehicle electric container, versions 1.2 to 2.2; 1.1 as far as it is alike. One tolerant reader covers them all.
 *
 * @example
 * ```ts
 * import { runReading, vecReader } from "ohmward/formats";
 * const text = '<v:VecContent xmlns:v="http://www.prostep.org/ecad-if/2011/vec"><VecVersion>2.1.0</VecVersion></v:VecContent>';
 * const bytes = Uint8Array.from(text, (character) => character.charCodeAt(0));
 * const made = runReading(vecReader.read(bytes, { fileName: "empty.vec" }));
 * expect(made?.ok === false && made.error.map((problem) => problem.code)).toEqual(["source-no-harness"]);
 * ```
 * Source: VDA recommendation 4968, Vehicle Electric Container (VEC); schemas by prostep ivip. What is read is told in docs/formats/vec.md.
 */
export const vecReader: FormatReader<HarnessReadOptions> = {
  id: "vec",
  label: "VEC vehicle electric container",
  extensions: [".vec"],
  recognises: (bytes) => looksLikeXml(bytes, "VecContent"),
  read: readVec,
};

function* readVec(bytes: Uint8Array, options: HarnessReadOptions): Reading {
  const tree = yield* readXml(bytes, { ...XML_LIMITS, mostBytes: options.mostBytes ?? XML_LIMITS.mostBytes });
  if (!tree.ok) return err([{ ...tree.error, at: { file: options.fileName, ...tree.error.at } }]);
  yield { share: 0.6, doing: "Understanding the file" };
  const { source, problems } = readVecSource(tree.value);
  if (source) {
    const ledgerOf = () => source.account.ledger(tree.value, options.fileName, VEC_CLASSES);
    return yield* assembleSource(source, options, problems, ledgerOf);
  }
  const list = problems.length > 0 ? problems : [importProblem("source-no-harness", {}, { wanted: "Specification" })];
  return err(list.map((problem) => ({ ...problem, at: { file: options.fileName, ...problem.at } })));
}

/** Namespace of all versions of VEC. Source: the VEC schemas. */
const VEC_NAMESPACE = "http://www.prostep.org/ecad-if/2011/vec";

/** What a VEC file says, and the problems of reading it; no source where it holds no harness. */
interface VecSource {
  readonly source: HarnessSource | undefined;
  readonly problems: readonly ImportProblem[];
}

/**
 * Reads what a VEC file says, without putting it together.
 *
 * @param document The file as a tree.
 * @returns The source, or undefined where the file holds no harness, with the problems found.
 */
export function readVecSource(document: XmlDocument): VecSource {
  const { root } = document;
  const at = { line: root.line };
  if (root.name !== "VecContent") {
    const facts = { name: root.name.slice(0, 80), wanted: "VecContent" };
    return { source: undefined, problems: [importProblem("xml-root-unknown", at, facts)] };
  }
  if (root.namespace !== VEC_NAMESPACE) {
    const facts = { namespace: (root.namespace ?? "none").slice(0, 200), wanted: VEC_NAMESPACE };
    return { source: undefined, problems: [importProblem("xml-namespace-unknown", at, facts)] };
  }
  const references = checkReferences(document, VEC_REFERENCES);
  const vec = makeVecFacts(document);
  if (vec.occurrences.length === 0) {
    const problem = importProblem("source-no-harness", at, { wanted: "CompositionSpecification with parts" });
    return { source: undefined, problems: [...references.problems, problem] };
  }
  const housings = readHousings(vec);
  const contacting = readContacting(vec, housings);
  const wires = readWires(vec, contacting);
  const couplings = readMatings(vec, housings, contacting);
  const devices = readComponents(vec, couplings);
  const { account } = vec.facts;
  const compositions = vec.specifications.get("CompositionSpecification") ?? [];
  account.keep([root, compositions[0]?.parent], "head of the document");
  const source: HarnessSource = {
    account,
    ...aboutOf(vec),
    options: readOptions(vec),
    builds: [],
    ...readTopology(vec),
    boxes: devices.boxes,
    connectors: devices.connectorsWithBoxes([...housings.connectors, ...contacting.connectors, ...wires.openEnds]),
    contacts: [...contacting.contacts, ...wires.openContacts],
    wires: wires.wires,
    matings: couplings.matings,
  };
  return { source, problems: [...references.problems, ...vec.facts.problems] };
}

function aboutOf({ facts, specifications }: VecFacts) {
  const { root } = facts.document;
  const document = specifications.get("CompositionSpecification")?.[0]?.parent;
  const number = facts.text(document, "DocumentNumber");
  const company = facts.text(document, "CompanyName");
  const version = facts.text(root, "VecVersion") ?? "of unknown version";
  return {
    title: number ?? "Harness",
    source: [`VEC ${version}`, number && `document ${number}`, company]
      .filter((text) => text !== undefined && text !== "")
      .join(", "),
    notes: [],
    harness: number,
    nominalVolt: undefined,
  };
}

/** Variants and part structures as options; a part structure that lists nothing decides nothing. */
function readOptions(vec: VecFacts): readonly SourceOption[] {
  const { facts, specifications } = vec;
  const variants = (specifications.get("VariantConfigurationSpecification") ?? [])
    .flatMap((each) => childrenOf(each, "VariantConfiguration"))
    .map((variant) => ({
      thing: variant,
      name: facts.text(variant, "Identification") ?? facts.text(variant, "LogisticControlString"),
    }));
  const structures = (specifications.get("PartStructureSpecification") ?? [])
    .filter((structure) => [...vec.fittedWith.values()].some(({ keys }) => keys.has(structure.id ?? "")))
    .map((structure) => ({ thing: structure, name: facts.text(structure, "Identification") }));
  return [...variants, ...structures].flatMap(({ thing, name }) => {
    if (thing.id === undefined) return [];
    const part = facts.reference(thing, "DescribedPart");
    const texts = [
      describedBy(vec, thing) ?? facts.text(childOf(part, "Abbreviation"), "Value"),
      facts.text(thing, "LogisticControlString") ?? facts.text(thing, "LogisticControlExpression"),
      facts.text(part, "PartNumber"),
    ].filter((text) => text !== undefined);
    const label = texts.join(", ") || (name ?? thing.id);
    const madeOf = [...withHolders([thing]), ...describing(vec, thing), part];
    return [{ key: thing.id, name: name ?? thing.id, label, at: facts.place(thing), madeOf }];
  });
}
