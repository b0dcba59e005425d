import { err } from "../../base/index.ts";
import type { FormatReader, Reading } from "../format-reader.ts";
import { importProblem } from "../import-problem.ts";
import { readXml } from "../xml/read-xml.ts";
import { assembleSource } from "../xml/source/assemble-source.ts";
import type { HarnessReadOptions } from "../xml/source/assembly.ts";
import { looksLikeXml } from "../xml/looks-like-xml.ts";
import { XML_LIMITS } from "../xml/xml-limits.ts";
import { readKblSource } from "./read-kbl-source.ts";

/**
 * Reads KBL files, the harness description list, versions 2.3 to 2.5. One tolerant reader covers them all, since each version only
 * adds to the one before.
 *
 * Source: VDA recommendation 4964, Harness Description List (KBL); schemas by prostep ivip. What is read is told in docs/formats/kbl.md.
 */
export const kblReader: FormatReader<HarnessReadOptions> = {
  id: "kbl",
  label: "KBL harness description",
  extensions: [".kbl"],
  recognises: (bytes) => looksLikeXml(bytes, "KBL_container"),
  read: readKbl,
};

function* readKbl(bytes: Uint8Array, options: HarnessReadOptions): Reading {
  const tree = yield* readXml(bytes, { ...XML_LIMITS, mostBytes: options.mostBytes ?? XML_LIMITS.mostBytes });
  if (!tree.ok) return err([{ ...tree.error, at: { file: options.fileName, ...tree.error.at } }]);
  yield { share: 1, doing: "Putting the harness together" };
  const { source, problems } = readKblSource(tree.value);
  if (source) return assembleSource(source, options, problems);
  const list = problems.length > 0 ? problems : [importProblem("source-no-harness", {}, { wanted: "Harness" })];
  return err(list.map((problem) => ({ ...problem, at: { file: options.fileName, ...problem.at } })));
}
