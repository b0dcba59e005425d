import { readFileSync } from "node:fs";
import { join } from "node:path";
import { fitBuild, openHarness, type Harness, type HarnessDocument } from "ohmward/harness-model";
import type { z } from "zod";

/** A harness document as plain data, before any check. */
export type DocumentInput = z.input<typeof HarnessDocument>;

/** A fresh copy of the smallest document with one of each thing. */
export function baseDocument(): DocumentInput {
  return JSON.parse(readFileSync(join(import.meta.dirname, "../fixtures/base.ohm.json"), "utf8")) as DocumentInput;
}

/** Opens a document that must be right. */
export function opened(document: DocumentInput): HarnessDocument {
  const result = openHarness(JSON.stringify(document));
  if (!result.ok) throw new Error(result.error.map((problem) => `${problem.at.path}: ${problem.message}`).join("\n"));
  return result.value.document;
}

/** Opens and fits a document that must be right. */
export function fitted(document: DocumentInput, build: string): Harness {
  const harness = fitBuild(opened(document), build);
  if (!harness) throw new Error(`There is no build "${build}"`);
  return harness;
}

/** Every edge of a harness as `key: node - node`, sorted: the graph without its numbers. */
export function edgeList(harness: Harness): readonly string[] {
  return harness.edges
    .map((edge, number) => {
      const [from, to] = [harness.index.from[number] ?? -1, harness.index.to[number] ?? -1];
      return `${edge.key}: ${[at(harness.nodes, from).key, at(harness.nodes, to).key].sort().join(" - ")}`;
    })
    .sort();
}

/** The item of a list at a position that must be there. */
export function at<Item>(list: readonly Item[], position: number): Item {
  const item = list[position];
  if (item === undefined) throw new RangeError(`There is no item ${position} in a list of ${list.length}`);
  return item;
}
