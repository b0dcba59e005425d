import { err } from "../../base/index.ts";
import type { FormatReader, Reading } from "../format-reader.ts";
import { importProblem } from "../import-problem.ts";
import { looksLikeXml } from "../xml/looks-like-xml.ts";
import { readXml } from "../xml/read-xml.ts";
import { assembleSource } from "../xml/source/assemble-source.ts";
import type { HarnessReadOptions } from "../xml/source/assembly.ts";
import { XML_LIMITS } from "../xml/xml-limits.ts";
import { readVecSource } from "./read-vec-source.ts";

/**
 * Reads VEC files, the vehicle electric container, versions 1.2 to 2.2; 1.1 as far as it is alike. One tolerant reader covers them all.
 *
 * Source: VDA recommendation 4968, Vehicle Electric Container (VEC); schemas by prostep ivip. What is read is told in docs/formats/vec.md.
 */
export const vecReader: FormatReader<HarnessReadOptions> = {
  id: "vec",
  label: "VEC vehicle electric container",
  extensions: [".vec"],
  recognises: (bytes) => looksLikeXml(bytes, "VecContent"),
  read: readVec,
};

function* readVec(bytes: Uint8Array, options: HarnessReadOptions): Reading {
  const tree = yield* readXml(bytes, { ...XML_LIMITS, mostBytes: options.mostBytes ?? XML_LIMITS.mostBytes });
  if (!tree.ok) return err([{ ...tree.error, at: { file: options.fileName, ...tree.error.at } }]);
  yield { share: 1, doing: "Putting the harness together" };
  const { source, problems } = readVecSource(tree.value);
  if (source) return assembleSource(source, options, problems);
  const list = problems.length > 0 ? problems : [importProblem("source-no-harness", {}, { wanted: "Specification" })];
  return err(list.map((problem) => ({ ...problem, at: { file: options.fileName, ...problem.at } })));
}
