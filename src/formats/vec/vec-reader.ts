import { err } from "../../base/index.ts";
import type { FormatReader, Reading } from "../format-reader.ts";
import { importProblem } from "../import-problem.ts";
import { looksLikeXml } from "../xml/looks-like-xml.ts";
import { VEC_CLASSES } from "./vec-classes.ts";
import { readXml } from "../xml/read-xml.ts";
import { assembleSource } from "../xml/source/assemble-source.ts";
import type { HarnessReadOptions } from "../xml/source/assembly.ts";
import { XML_LIMITS } from "../xml/xml-limits.ts";
import { readVecSource } from "./read-vec-source.ts";

/**
 * Reads VEC files, the vehicle electric container, versions 1.2 to 2.2; 1.1 as far as it is alike. One tolerant reader covers them all.
 *
 * @example
 * ```ts
 * import { runReading, vecReader } from "ohmward/formats";
 * const text = '<v:VecContent xmlns:v="http://www.prostep.org/ecad-if/2011/vec"><VecVersion>2.1.0</VecVersion></v:VecContent>';
 * const bytes = Uint8Array.from(text, (character) => character.charCodeAt(0));
 * const made = runReading(vecReader.read(bytes, { fileName: "empty.vec" }));
 * expect(made?.ok === false && made.error.map((problem) => problem.code)).toEqual(["source-no-harness"]);
 * ```
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
  yield { share: 0.6, doing: "Understanding the file" };
  const { source, problems } = readVecSource(tree.value);
  if (source) {
    const ledgerOf = () => source.account.ledger(tree.value, options.fileName, VEC_CLASSES);
    return yield* assembleSource(source, options, problems, ledgerOf);
  }
  const list = problems.length > 0 ? problems : [importProblem("source-no-harness", {}, { wanted: "Specification" })];
  return err(list.map((problem) => ({ ...problem, at: { file: options.fileName, ...problem.at } })));
}
