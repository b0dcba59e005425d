import { err, ok } from "../../../base/index.ts";
import { HarnessDraft } from "../../draft/harness-draft.ts";
import type { Reading } from "../../format-reader.ts";
import type { Ledger } from "../../ledger.ts";
import { importProblem, type ImportProblem } from "../../import-problem.ts";
import { addConnectors } from "./add-connectors.ts";
import { addTopology } from "./add-topology.ts";
import { addWires } from "./add-wires.ts";
import type { Assembly, HarnessReadOptions } from "./assembly.ts";
import { chooseBuilds } from "./choose-builds.ts";
import { findColourCodes } from "./colour-scheme.ts";
import { indexSource } from "./fitted.ts";
import type { HarnessSource } from "./harness-source.ts";
import { mateWithin } from "./mate-within.ts";

/**
 * Puts a harness together from what a file says and has the checks of the model judge it.
 *
 * @param source What the file says.
 * @param options What the reader was told.
 * @param found Problems found on the way here; an error among them ends in no document.
 * @param ledgerOf Makes the ledger of the file, asked once everything is taken down.
 * @returns The document, one build of it at least, or every problem; in steps, like the reading it is the end of.
 */
export function* assembleSource(
  source: HarnessSource,
  options: HarnessReadOptions,
  found: readonly ImportProblem[],
  ledgerOf: () => Ledger,
): Reading {
  const inFile = (problem: ImportProblem): ImportProblem => ({
    ...problem,
    at: { file: options.fileName, ...problem.at },
  });
  const chosen = chooseBuilds(source, options.builds);
  const problems = [...found, ...chosen.problems].map(inFile);
  if (problems.some((problem) => problem.severity === "error")) return err(problems);
  const codes = findColourCodes(
    source.wires.flatMap((wire) => wire.colours),
    options.colours,
  );
  const { nominalVolt } = source;
  const system =
    options.system ??
    (nominalVolt === undefined ? undefined : { nominalVolt, wireStandard: "iso-6722" as const, temperatureC: 20 });
  const draft = new HarnessDraft({
    file: options.fileName,
    title: source.title,
    source: source.source,
    notes: source.notes,
    ...(options.machine === undefined ? {} : { machine: options.machine }),
    ...(system === undefined ? {} : { system }),
  });
  const assembly: Assembly = {
    source,
    index: indexSource(source),
    draft,
    builds: chosen.builds,
    codes,
    options: new Map(),
    places: new Map(),
    segments: new Map(),
    boxes: new Map(),
    connectors: new Map(),
  };
  for (const problem of problems) draft.report(problem);
  const colours = new Set(source.wires.flatMap((wire) => wire.colours.map((colour) => colour.text))).size;
  if (colours > 0 && !codes.isKnown) draft.report(importProblem("source-colours", {}, { scheme: codes.name, colours }));
  addOptionsAndBuilds(assembly);
  addTopology(assembly);
  yield { share: 0.7, doing: "Putting connectors together" };
  addConnectors(assembly);
  yield { share: 0.8, doing: "Putting wires together" };
  addWires(assembly);
  yield { share: 0.9, doing: "Checking the harness" };
  const made = mateWithin(assembly, draft.finish());
  return made.ok ? ok({ ...made.value, ledgers: [ledgerOf()] }) : made;
}

function addOptionsAndBuilds(assembly: Assembly): void {
  const { source, draft, builds } = assembly;
  for (const build of source.builds) source.account.leaveOut(build.madeOf, "not among the builds that were made");
  for (const option of source.options) {
    source.account.keep(option.madeOf, "option");
    assembly.options.set(option.key, draft.addOption({ id: option.name, label: option.label }, option.at));
  }
  for (const build of builds) {
    const options = build.options.map((key) => assembly.options.get(key)).filter((id) => id !== undefined);
    source.account.keep(build.madeOf, "build");
    draft.addBuild({ id: build.name, label: build.label, options }, build.at);
  }
}
