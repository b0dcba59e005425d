import { importProblem, type ImportProblem } from "../../import-problem.ts";
import { findContactedTwice } from "./find-contacted-twice.ts";
import { indexSource, type OptionKeys } from "./fitted.ts";
import type { HarnessSource, SourceBuild } from "./harness-source.ts";

/** A build that the person who imports asks for: options by their names in the file. */
export interface WantedBuild {
  readonly id: string;
  readonly label?: string;
  readonly options: readonly string[];
}

/** A build that fits together. */
export interface ChosenBuild extends SourceBuild {
  readonly keys: OptionKeys;
}

/** Builds that fit together, and what was wrong with the others. */
export interface ChosenBuilds {
  readonly builds: readonly ChosenBuild[];
  readonly problems: readonly ImportProblem[];
}

/**
 * Chooses the builds of the document: those asked for, otherwise those of the file, otherwise one with all its options. A build in
 * which contacts of a connector exclude one another is left out; when none is left that is an error.
 *
 * @param source The file.
 * @param wanted Builds asked for.
 */
export function chooseBuilds(source: HarnessSource, wanted: readonly WantedBuild[] | undefined): ChosenBuilds {
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
  for (const { build, cavities, example } of faults) {
    if (builds.length > 0)
      problems.push(importProblem("build-left-out", build.at, { build: build.label, cavities, example }));
    else problems.push(importProblem("options-not-resolved", build.at, { build: build.label, cavities, example }));
  }
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
