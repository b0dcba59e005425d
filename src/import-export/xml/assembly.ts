import type { ReadOptions } from "../format-reader.ts";
import type { HarnessDraft } from "../draft/harness-draft.ts";
import type { ColourScheme } from "../tables/table-options.ts";
import { codesByWord, givenCode } from "../tables/wire-facts.ts";
import type {
  FittedWith,
  RawColour,
  HarnessSource,
  SourceConnector,
  SourceItem,
  SourceContact,
  SourceWire,
  SourceBuild,
} from "./harness-source.ts";
import { importProblem, type ImportProblem } from "../import-problem.ts";

/** What the readers of harness files are told beside what every reader is told. */
export interface HarnessReadOptions extends ReadOptions {
  /** Colour codes of the file; absent means that they are worked out. */
  readonly colours?: ColourScheme;
  /** Builds to make, by the options of the file; absent means those of the file. */
  readonly builds?: readonly WantedBuild[];
}

/** A harness being put together: the source, the draft that is filled, and what things of the source became. */
export interface Assembly {
  readonly source: HarnessSource;
  readonly index: SourceIndex;
  readonly draft: HarnessDraft;
  readonly builds: readonly ChosenBuild[];
  readonly codes: ColourCodes;
  readonly options: Map<string, string>;
  readonly places: Map<string, string>;
  readonly segments: Map<string, string>;
  readonly boxes: Map<string, string>;
  readonly connectors: Map<string, { readonly kind: "connector" | "splice" | "stud"; readonly id: string }>;
}

/** Longest option expression a document takes, in characters. */
const MOST_WHEN = 600;

/** The option expression of what a thing is fitted with, ready to be spread into it. */
export function whenOf(assembly: Assembly, item: SourceItem, fitted: FittedWith): { readonly when?: string } {
  if (fitted === undefined) return {};
  const ids = [...fitted].map((key) => assembly.options.get(key)).filter((id) => id !== undefined);
  // Fitted with options that are not in the file: with none that can be chosen, yet not always.
  if (ids.length === 0) return fitted.size === 0 ? {} : { when: neverFitted(assembly) };
  const when = ids.join(" | ");
  if (when.length <= MOST_WHEN) return { when };
  assembly.draft.report(importProblem("options-too-many", item.at, { item: item.name, options: ids.length }));
  return {};
}

function neverFitted(assembly: Assembly): string {
  const key = "option that is not in the file";
  const known = assembly.options.get(key);
  if (known !== undefined) return known;
  const id = assembly.draft.addOption({ id: "not-in-file", label: "Fitted with options that the file does not list" });
  assembly.options.set(key, id);
  return id;
}

/** What a connector, or a component with its connectors, is fitted with: what the file says and whatever its wires are fitted with. */
export function fittedWithWires(
  assembly: Assembly,
  own: FittedWith,
  connectors: readonly SourceConnector[],
): FittedWith {
  const wires = connectors.flatMap((connector) => wiresOf(assembly, connector)).map((wire) => wire.fitted);
  return own === undefined && wires.length === 0 ? undefined : unionOf(own === undefined ? wires : [own, ...wires]);
}

/** Wires at a connector, once for each end there. */
export function wiresOf({ index }: Assembly, connector: SourceConnector) {
  const contacts = index.contactsOf.get(connector.key) ?? [];
  return contacts.flatMap((contact) => index.wiresAt.get(contact.key) ?? []);
}

/** Of things that may be fitted, how many are at once in the build that has most, and in the one that has fewest but not none. */
export function countFitted(
  parts: readonly FittedWith[],
  builds: readonly { readonly keys: OptionKeys }[],
): { readonly most: number; readonly fewest: number } {
  let most = 0;
  let fewest = Infinity;
  for (const build of builds) {
    const count = parts.filter((part) => isFittedWith(part, build.keys)).length;
    most = Math.max(most, count);
    if (count > 0) fewest = Math.min(fewest, count);
  }
  return { most, fewest };
}

/** The options of one build, by key. */
type OptionKeys = ReadonlySet<string>;

/** Whether a thing is fitted with a set of options. */
export function isFittedWith(fitted: FittedWith, options: OptionKeys): boolean {
  if (fitted === undefined) return true;
  for (const key of fitted) if (options.has(key)) return true;
  return false;
}

/** What several things are fitted with together: always, as soon as one of them is. */
export function unionOf(parts: readonly FittedWith[]): FittedWith {
  const union = new Set<string>();
  for (const part of parts) {
    if (part === undefined) return undefined;
    for (const key of part) union.add(key);
  }
  return union;
}

/** Contact points and wires by what they hang on, wires once for each end there; worked out once a source. */
export function indexSource({ connectors, segments, contacts, wires }: HarnessSource) {
  const contactsOf = new Map<string, SourceContact[]>();
  for (const contact of contacts) listIn(contactsOf, contact.connector).push(contact);
  const wiresAt = new Map<string, SourceWire[]>();
  for (const wire of wires) for (const end of wire.ends) listIn(wiresAt, end.contact).push(wire);
  return { connectors: byKey(connectors), segments: byKey(segments), contacts: byKey(contacts), contactsOf, wiresAt };
}

type SourceIndex = ReturnType<typeof indexSource>;

function byKey<Thing extends { readonly key: string }>(items: readonly Thing[]): ReadonlyMap<string, Thing> {
  return new Map(items.map((item) => [item.key, item]));
}

function listIn<Thing>(lists: Map<string, Thing[]>, key: string): Thing[] {
  const list = lists.get(key) ?? [];
  lists.set(key, list);
  return list;
}

/** A build that the person who imports asks for: options by their names in the file. */
export interface WantedBuild {
  readonly id: string;
  readonly label?: string;
  readonly options: readonly string[];
}

/** A build that fits together. */
interface ChosenBuild extends SourceBuild {
  readonly keys: OptionKeys;
}

/**
 * Chooses the builds of the document: those asked for, otherwise those of the file, otherwise one with all its options. A build in
 * which contacts of a connector exclude one another is left out; when none is left that is an error.
 */
export function chooseBuilds(source: HarnessSource, wanted: readonly WantedBuild[] | undefined) {
  const problems: ImportProblem[] = [];
  const candidates = wanted ? named(source, wanted, problems) : ofFile(source, problems);
  const builds: ChosenBuild[] = [];
  const index = indexSource(source);
  const faults: { build: SourceBuild; cavities: number; example: string }[] = [];
  for (const build of candidates) {
    const keys = new Set(build.options);
    const twice = findContactedTwice(source, keys, index).filter((each) => each.use !== "splice");
    const [first] = twice;
    if (first) {
      const example = `${first.connector}:${first.cavity} (${first.wires.slice(0, 4).join(", ")})`;
      faults.push({ build, cavities: twice.length, example });
    } else builds.push({ ...build, keys });
  }
  const code = builds.length > 0 ? "build-left-out" : "options-not-resolved";
  for (const { build, cavities, example } of faults)
    problems.push(importProblem(code, build.at, { build: build.label, cavities, example }));
  return { builds, problems };
}

function named(
  source: HarnessSource,
  wanted: readonly WantedBuild[],
  problems: ImportProblem[],
): readonly SourceBuild[] {
  const byName = new Map(source.options.map((option) => [option.name, option.key]));
  return wanted.map((build) => {
    const options: string[] = [];
    for (const name of build.options) {
      const key = byName.get(name);
      if (key !== undefined) options.push(key);
      else {
        const known = [...byName.keys()].slice(0, 12).join(", ") || "none";
        problems.push(importProblem("option-unknown", {}, { option: name.slice(0, 80), known: known.slice(0, 300) }));
      }
    }
    return { key: build.id, name: build.id, label: build.label ?? build.id, options, at: {}, madeOf: [] };
  });
}

function ofFile(source: HarnessSource, problems: ImportProblem[]): readonly SourceBuild[] {
  const filled = source.builds.filter((build) => build.options.length > 0);
  if (filled.length > 0) {
    for (const build of source.builds) {
      if (build.options.length === 0) problems.push(importProblem("build-empty", build.at, { build: build.label }));
    }
    return filled;
  }
  const options = source.options.map((option) => option.key);
  const label = options.length === 0 ? "As described" : "All options of the file";
  return [{ key: "all", name: options.length === 0 ? "base" : "all", label, options, at: {}, madeOf: [] }];
}

/**
 * Finds cavities that would hold several contact points with wires at once. On a splice that is how it is made; anywhere else the
 * contact points exclude one another, and the options of the file are not resolved.
 *
 * @param options Keys of the options fitted.
 * @param index The index of the source, where it is known already.
 * @returns All of them, with the names of their wires, in the order of the file.
 */
export function findContactedTwice(
  source: HarnessSource,
  options: OptionKeys,
  index: SourceIndex = indexSource(source),
) {
  return source.connectors.flatMap(({ key, name, use, box, cavities }) => {
    const used = new Map<string, { contacts: number; wires: string[] }>();
    for (const contact of index.contactsOf.get(key) ?? []) {
      const wires = (index.wiresAt.get(contact.key) ?? []).filter((wire) => isFittedWith(wire.fitted, options));
      if (wires.length === 0) continue;
      for (const cavity of contact.cavities) {
        const entry = used.get(cavity) ?? { contacts: 0, wires: [] };
        entry.contacts += 1;
        entry.wires.push(...wires.map((wire) => wire.name));
        used.set(cavity, entry);
      }
    }
    return cavities.flatMap((cavity) => {
      const { contacts = 0, wires = [] } = used.get(cavity.key) ?? {};
      return contacts < 2 ? [] : [{ connector: name, use, cavity: cavity.name, isBox: box !== undefined, wires }];
    });
  });
}

/** What the colour codes of one file mean. */
export interface ColourCodes {
  /** Name of the list, for people. */
  readonly name: string;
  /** Whether the file or the person who imports says so; otherwise it was worked out. */
  readonly isKnown: boolean;
  /** Letter code of a colour, an empty text for a conductor without colour, undefined for a colour the list does not have. */
  readonly codeOf: (text: string) => string | undefined;
}

/** German short codes and words by letter codes; an empty code is a conductor without colour. Common practice, no source. */
const GERMAN = codesByWord([
  ...["BK sw schwarz", "BN br braun", "RD rt rot", "OG or orange", "YE ge gelb", "GN gn gruen grün", "BU bl blau"],
  ...["VT vi violett li lila", "GY gr grau", "WH ws weiss weiß", "PK rs rosa", "GD go gold", "TQ tk tuerkis türkis"],
  ...["SR sb silber", " blk blank"],
]);
/** English words by letter codes, as that standard names them. Source: IEC 60757 (see docs/sources.md). */
const ENGLISH = codesByWord([
  ...["BK black", "BN brown", "RD red", "OG orange", "YE yellow", "GN green", "BU blue", "VT violet", "GY grey gray"],
  ...["WH white", "PK pink", "GD gold", "TQ turquoise", "SR silver"],
]);
/** Lists in the order in which they win when several explain a file equally well. */
const LETTERS: typeof ENGLISH = new Map([...ENGLISH.values()].map((code) => [code.toLowerCase(), code]));
const IEC_60757 = { name: "iec-60757", codes: LETTERS };
const LISTS = [IEC_60757, { name: "german", codes: GERMAN }, { name: "english", codes: ENGLISH }];

/**
 * Finds what the codes of a file mean: as the person who imports says, by the list that the file names, otherwise by the list that has
 * most of its codes.
 */
export function findColourCodes(colours: readonly RawColour[], given?: ColourScheme): ColourCodes {
  if (given?.kind === "codes")
    return { name: "the codes given", isKnown: true, codeOf: (text) => givenCode(text, given.codes) };
  const isNamed = given !== undefined || colours.some(({ system }) => system !== undefined && /60757/u.test(system));
  const texts = [...new Set(colours.map((colour) => colour.text.toLowerCase()))];
  let best = IEC_60757;
  let most = 0;
  for (const list of isNamed ? [] : LISTS) {
    const known = texts.filter((text) => list.codes.has(text)).length;
    if (known > most) [best, most] = [list, known];
  }
  return { name: best.name, isKnown: isNamed, codeOf: (text) => best.codes.get(text.toLowerCase()) };
}
