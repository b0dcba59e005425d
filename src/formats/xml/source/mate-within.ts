import { err, ok } from "../../../base/index.ts";
import { openHarness } from "../../../model/index.ts";
import type { ReadResult } from "../../format-reader.ts";
import { carryProblem, importProblem } from "../../import-problem.ts";
import { mateConnectors } from "../join/mate-connectors.ts";
import type { Assembly } from "./assembly.ts";
import type { SourceCavity } from "./harness-source.ts";

/** Joins connectors of which the file itself says that they mate. */
export function mateWithin(assembly: Assembly, result: ReadResult): ReadResult {
  const { source, connectors, index, draft } = assembly;
  if (!result.ok || source.matings.length === 0) return result;
  let { document } = result.value;
  const warnings = [...result.value.warnings];
  for (const mating of source.matings) {
    const [first, second] = mating.connectors.map((key) => connectors.get(key));
    const names = mating.connectors.map((key) => index.connectors.get(key)?.name ?? key.slice(0, 80));
    const refuse = (reason: string): void => {
      const facts = { first: names[0] ?? "", second: names[1] ?? "", reason };
      source.account.leaveOut(mating.madeOf, reason);
      warnings.push(importProblem("mating-left-out", { file: draft.start.file, ...mating.at }, facts));
    };
    if (first?.kind !== "connector" || second?.kind !== "connector") {
      refuse("one of them is no connector");
      continue;
    }
    const cavities = new Map<string, SourceCavity>();
    for (const key of mating.connectors) {
      for (const cavity of index.connectors.get(key)?.cavities ?? []) cavities.set(cavity.key, cavity);
    }
    const pairs = mating.cavities.flatMap((pair) => {
      const [one, two] = pair.map((key) => cavities.get(key)?.name);
      return one === undefined || two === undefined ? [] : [[one, two] as const];
    });
    const mated = mateConnectors(document, [first.id, second.id], pairs.length > 0 ? pairs : undefined);
    if (!mated.ok) refuse(mated.error);
    else {
      document = mated.value;
      source.account.keep(mating.madeOf, "mating");
    }
  }
  const opened = openHarness(JSON.stringify(document));
  if (opened.ok) return ok({ document: opened.value.document, warnings });
  const place = { file: draft.start.file };
  return err([...warnings, ...opened.error.map((problem) => carryProblem(problem, place))]);
}
