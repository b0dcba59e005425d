import { err, ok, type Result } from "../../../base/index.ts";
import type { HarnessDocument } from "../../../model/index.ts";
import { cut } from "../../draft/clean-id.ts";
import { importProblem, type ImportProblem } from "../../import-problem.ts";
import type { JoinPart } from "./join-part.ts";

type Build = HarnessDocument["builds"][number];

/** Builds of several documents in all combinations; options may still be renamed, document by document. */
export interface JoinedBuilds {
  readonly rename: (part: number, options: ReadonlyMap<string, string>) => void;
  readonly builds: () => readonly Build[];
}

/** Most combinations that are made. */
const MOST_BUILDS = 40;

/** Combines each build of each document with each of the others. A document with one build without options adds no name. */
export function joinBuilds(parts: readonly JoinPart[]): Result<JoinedBuilds, ImportProblem> {
  const chosen = parts.map(({ document, build }) => {
    const one = document.builds.filter((each) => each.id === build);
    return build === undefined ? document.builds : one;
  });
  const count = chosen.reduce((product, builds) => product * builds.length, 1);
  if (count > MOST_BUILDS || count === 0)
    return err(importProblem("join-too-many-builds", {}, { builds: count, limit: MOST_BUILDS }));
  const renames = new Map<number, ReadonlyMap<string, string>>();
  return ok({
    rename: (part, options) => {
      renames.set(part, options);
    },
    builds: () => {
      let combined: { names: string[]; labels: string[]; options: string[] }[] = [
        { names: [], labels: [], options: [] },
      ];
      chosen.forEach((builds, part) => {
        const isPlain = builds.length === 1 && builds[0]?.options.length === 0;
        combined = combined.flatMap((before) =>
          builds.map((build) => ({
            names: isPlain ? before.names : [...before.names, build.id],
            labels: isPlain ? before.labels : [...before.labels, build.label],
            options: [...before.options, ...build.options.map((id) => renames.get(part)?.get(id) ?? id)],
          })),
        );
      });
      return combined.map(({ names, labels, options }) => {
        const build = {
          id: names.length === 0 ? "base" : cut(names.join("+"), 64),
          label: labels.length === 0 ? "As described" : cut(labels.join("; "), 600),
          options: [...new Set(options)],
        };
        // Plain ids; the model checks what comes out.
        return build as unknown as Build;
      });
    },
  });
}
