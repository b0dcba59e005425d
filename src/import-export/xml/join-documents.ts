import { defined, err, ok, type Result } from "../../base/index.ts";
import type { HarnessDocument } from "../../harness-model/index.ts";
import { cut, freeName, MOST_ID_CHARACTERS } from "../draft/draft-parts.ts";
import { judgeDocument } from "../draft/finish-draft.ts";
import type { ReadResult } from "../format-reader.ts";
import { importProblem, type ImportProblem } from "../import-problem.ts";
import { type JoinPart, mateConnectors, type CavityPairs, renameDocument, type Renames } from "./mate-connectors.ts";
import type { ConnectorOfPart } from "./propose-matings.ts";

/** Two connectors that a person has confirmed to mate. */
export interface ConfirmedMating {
  readonly first: ConnectorOfPart;
  readonly second: ConnectorOfPart;
  /** Cavities that meet; absent means those of the same id. */
  readonly cavities?: CavityPairs;
}

/**
 * Joins several documents into one and plugs connectors into one another, as a person has confirmed it. Ids of the first document stay;
 * those of the others stay where they are free. Builds are combined, each of the first with each of the others. The drawing of the first
 * document stands: places of the others lose their coordinates, since each file was laid out by itself.
 *
 * @param parts The documents, the main one first.
 * @param pairs Confirmed pairs; see `proposeMatings`.
 * @returns The document, checked, or every problem. A pair that cannot mate is left out with a warning.
 */
export function joinDocuments(parts: readonly JoinPart[], pairs: readonly ConfirmedMating[]): ReadResult {
  const [main, ...others] = parts;
  if (!main) throw new RangeError("There is no document to join");
  const builds = joinBuilds(parts);
  if (!builds.ok) return err([builds.error]);
  let joined: HarnessDocument = { ...main.document, builds: [] };
  const connectors: ReadonlyMap<string, string>[] = [new Map()];
  const options: ReadonlyMap<string, string>[] = [new Map()];
  others.forEach((part, at) => {
    const renames = clashes(joined, part.document, part.prefix ?? `${String.fromCharCode(66 + (at % 25))}-`);
    connectors.push(renames.shared);
    options.push(renames.options);
    joined = add(joined, renameDocument(part.document, renames));
  });
  joined = { ...joined, builds: builds.value(options), about: aboutOf(parts), nets: allNets(joined) };
  const warnings: ImportProblem[] = [];
  for (const pair of pairs) {
    const [first, second] = [pair.first, pair.second].map(
      ({ part, connector }) => connectors[part]?.get(connector) ?? connector,
    );
    const mated = mateConnectors(joined, [first ?? "", second ?? ""], pair.cavities);
    if (mated.ok) joined = mated.value;
    else {
      const facts = { first: pair.first.connector, second: pair.second.connector, reason: mated.error };
      warnings.push(importProblem("mating-left-out", {}, facts));
    }
  }
  return judgeDocument(joined, warnings, () => undefined);
}

const SHARED = ["wires", "splices", "terminalStuds", "components", "connectors", "segments", "zones", "codes"] as const;

type Clashes = Required<Pick<Renames, "shared" | "topologyNodes" | "options" | "states" | "others">>;

/** New ids for what the second document calls like something in the first. */
function clashes(first: HarnessDocument, second: HarnessDocument, prefix: string): Clashes {
  const ids = (document: HarnessDocument, names: readonly (keyof HarnessDocument)[]): string[] =>
    names.flatMap((name) => {
      const list = document[name];
      return Array.isArray(list) ? list.flatMap((item) => ("id" in item ? [item.id] : [])) : [];
    });
  const sides = (document: HarnessDocument): string[] =>
    document.connectors.flatMap(({ id, sides: own }) =>
      own.flatMap((side) => [`${id}.${side.id}`, side.name ?? []].flat()),
    );
  const rename = (names: readonly (keyof HarnessDocument)[], isSame: (id: string) => boolean = () => false) => {
    const isShared = names.includes("wires");
    const taken = new Set([...ids(first, names), ...(isShared ? sides(first) : [])]);
    const own = [...ids(second, names), ...(isShared ? sides(second) : [])];
    const used = new Set([...taken, ...own]);
    const renames = new Map<string, string>();
    for (const id of own) {
      if (!taken.has(id) || isSame(id) || renames.has(id)) continue;
      const wanted = freeName(cut(prefix + id, MOST_ID_CHARACTERS - 6), used, MOST_ID_CHARACTERS - 6);
      used.add(wanted);
      renames.set(id, wanted);
    }
    return renames;
  };
  const text = (list: readonly { readonly id: string }[], id: string) =>
    JSON.stringify(list.find((each) => each.id === id));
  const alike = (name: "options" | "states") => (id: string) => text(first[name], id) === text(second[name], id);
  return {
    shared: rename(SHARED),
    topologyNodes: rename(["topologyNodes"]),
    options: rename(["options"], alike("options")),
    states: rename(["states"], alike("states")),
    others: rename(["adapters", "cautions"]),
  };
}

function add(first: HarnessDocument, second: HarnessDocument): HarnessDocument {
  const lists = Object.entries(second).flatMap(([name, value]): [string, readonly unknown[]][] => {
    if (name === "statements") return [[name, [...(first.statements ?? []), ...(second.statements ?? [])]]];
    const before = new Map<string, unknown>(Object.entries(first)).get(name);
    if (!Array.isArray(value) || !Array.isArray(before) || name === "builds") return [];
    const known = new Set(before.map((item: { readonly id: string }) => item.id));
    const items = value as readonly { readonly id: string; readonly label?: string }[];
    // What is the same in both is there already; everything else has an id of its own by now.
    const fresh = items.filter((item) => !known.has(item.id));
    const added = name === "topologyNodes" ? fresh.map(({ id, label }) => ({ id, ...defined({ label }) })) : fresh;
    return [[name, [...(before as unknown[]), ...added]]];
  });
  return { ...first, ...(Object.fromEntries(lists) as Partial<HarnessDocument>) };
}

/** Once one document lists its nets, labels of the others have to be listed too. */
function allNets(document: HarnessDocument): HarnessDocument["nets"] {
  if (document.nets.length === 0) return document.nets;
  const known = new Set(document.nets.map((net) => net.id));
  const labels = new Set(document.wires.map((wire) => wire.net).filter((net) => net !== undefined));
  const missing = [...labels].filter((label) => !known.has(label));
  return [...document.nets, ...missing.map((id) => ({ id }))];
}

function aboutOf(parts: readonly JoinPart[]): HarnessDocument["about"] {
  const all = parts.map((part) => part.document.about);
  const [main] = all;
  const list = (texts: readonly (string | undefined)[]): string =>
    cut([...new Set(texts.filter((text) => text !== undefined))].join("; "), 600);
  const notes = all.flatMap((about) => about.notes ?? []);
  return {
    title: list(all.map((about) => about.title)),
    machine: main?.machine ?? "",
    source: list(all.map((about) => about.source)),
    ...(notes.length === 0 ? {} : { notes }),
  };
}

type Build = HarnessDocument["builds"][number];

/** Most combinations that are made. */
const MOST_BUILDS = 40;

/** Combines each build of each document with each of the others. A document with one build without options adds no name. */
function joinBuilds(
  parts: readonly JoinPart[],
): Result<(renames: readonly ReadonlyMap<string, string>[]) => Build[], ImportProblem> {
  const chosen = parts.map(({ document, build }) =>
    document.builds.filter((each) => build === undefined || each.id === build),
  );
  const count = chosen.reduce((product, builds) => product * builds.length, 1);
  if (count > MOST_BUILDS || count === 0)
    return err(importProblem("join-too-many-builds", {}, { builds: count, limit: MOST_BUILDS }));
  return ok((renames) => {
    let combined: { names: string[]; labels: string[]; options: string[] }[] = [{ names: [], labels: [], options: [] }];
    chosen.forEach((builds, part) => {
      const isPlain = builds.length === 1 && builds[0]?.options.length === 0;
      combined = combined.flatMap((before) =>
        builds.map((build) => ({
          names: isPlain ? before.names : [...before.names, build.id],
          labels: isPlain ? before.labels : [...before.labels, build.label],
          options: [...before.options, ...build.options.map((id) => renames[part]?.get(id) ?? id)],
        })),
      );
    });
    return combined.map(({ names, labels, options }) => {
      const id = names.length === 0 ? "base" : cut(names.join("+"), 64);
      const label = labels.length === 0 ? "As described" : cut(labels.join("; "), 600);
      // Plain ids; the model checks what comes out.
      return { id, label, options: [...new Set(options)] } as unknown as Build;
    });
  });
}
