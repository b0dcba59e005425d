import { VEC_CLASSES, VEC_REFERENCES } from "./vec-classes.ts";
import { harnessReader, type HarnessFormat, type SourceRead } from "../xml/harness-format.ts";
import type { HarnessSource, SourceOption } from "../xml/harness-source.ts";
import { childOf, type XmlDocument } from "../xml/xml-element.ts";
import { readContacting, readHousings, readMatings } from "./read-contacting.ts";
import { readComponents } from "./read-components.ts";
import { readTopology, readWires } from "./read-wires.ts";
import { describedBy, describing, makeVecFacts, withHolders, type VecFacts } from "./vec-facts.ts";

/** The format VEC. Source: the VEC schemas. */
export const VEC: HarnessFormat = {
  id: "vec",
  label: "VEC vehicle electric container",
  root: "VecContent",
  namespace: "http://www.prostep.org/ecad-if/2011/vec",
  wanted: "CompositionSpecification with parts",
  references: VEC_REFERENCES,
  classOf: VEC_CLASSES,
  read: readVec,
};

/**
 * Reads VEC files, the vehicle electric container, versions 1.2 to 2.2; 1.1 as far as it is alike. One tolerant reader covers them all.
 *
 * @example
 * ```ts
 * import { runReading, vecReader } from "ohmward/import-export";
 * const text = '<v:VecContent xmlns:v="http://www.prostep.org/ecad-if/2011/vec"><VecVersion>2.1.0</VecVersion></v:VecContent>';
 * const bytes = Uint8Array.from(text, (character) => character.charCodeAt(0));
 * const made = runReading(vecReader.read(bytes, { fileName: "empty.vec" }));
 * expect(made?.ok === false && made.error.map((problem) => problem.code)).toEqual(["source-no-harness"]);
 * ```
 * Source: VDA recommendation 4968, Vehicle Electric Container (VEC); schemas by prostep ivip. What is read is told in docs/formats/vec.md.
 */
export const vecReader = harnessReader(VEC);

function readVec(document: XmlDocument): SourceRead {
  const { root } = document;
  const vec = makeVecFacts(document);
  if (vec.occurrences.length === 0) return { source: undefined, problems: [] };
  const housings = readHousings(vec);
  const contacting = readContacting(vec, housings);
  const wires = readWires(vec, contacting);
  const couplings = readMatings(vec, housings, contacting);
  const plugs = [...housings.connectors, ...contacting.connectors, ...wires.openEnds];
  const components = readComponents(vec, couplings, plugs);
  const { account } = vec.facts;
  const compositions = vec.specifications.get("CompositionSpecification") ?? [];
  account.keep([root, compositions[0]?.parent], "head of the document");
  const source: HarnessSource = {
    account,
    ...aboutOf(vec),
    options: readOptions(vec),
    builds: [],
    ...readTopology(vec),
    ...components,
    contacts: [...contacting.contacts, ...wires.openContacts],
    wires: wires.wires,
    matings: couplings.matings,
  };
  return { source, problems: vec.facts.problems };
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
  const variants = vec.listed("VariantConfigurationSpecification", "VariantConfiguration").map((variant) => ({
    item: variant,
    name: facts.text(variant, "Identification") ?? facts.text(variant, "LogisticControlString"),
  }));
  const structures = (specifications.get("PartStructureSpecification") ?? [])
    .filter((structure) => [...vec.fittedWith.values()].some(({ keys }) => keys.has(structure.id ?? "")))
    .map((structure) => ({ item: structure, name: facts.text(structure, "Identification") }));
  return [...variants, ...structures].flatMap(({ item, name }) => {
    if (item.id === undefined) return [];
    const part = facts.reference(item, "DescribedPart");
    const texts = [
      describedBy(vec, item) ?? facts.text(childOf(part, "Abbreviation"), "Value"),
      facts.text(item, "LogisticControlString") ?? facts.text(item, "LogisticControlExpression"),
      facts.text(part, "PartNumber"),
    ].filter((text) => text !== undefined);
    const label = texts.join(", ") || (name ?? item.id);
    const madeOf = [...withHolders([item]), ...describing(vec, item), part];
    return [{ key: item.id, name: name ?? item.id, label, at: facts.place(item), madeOf }];
  });
}
