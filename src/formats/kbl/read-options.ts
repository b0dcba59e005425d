import type { SourceBuild, SourceOption } from "../xml/source/harness-source.ts";
import { childrenOf, type XmlElement } from "../xml/xml-element.ts";
import type { KblFacts } from "./kbl-facts.ts";

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
export function readOptions(kbl: KblFacts): { readonly options: SourceOption[]; readonly builds: SourceBuild[] } {
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
