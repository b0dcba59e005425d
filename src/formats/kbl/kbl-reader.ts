import { err } from "../../base/index.ts";
import type { FormatReader, Reading } from "../format-reader.ts";
import { importProblem } from "../import-problem.ts";
import { KBL_CLASSES } from "./kbl-classes.ts";
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
 * @example
 * ```ts
 * import { kblReader, runReading } from "ohmward/formats";
 * const text = `<k:KBL_container xmlns:k="http://www.prostep.org/Car_electric_container/KBL2.3/KBLSchema">
 *   <Connector_housing id="h"><Slots id="s"><Cavities id="c"><Cavity_number>1</Cavity_number></Cavities></Slots></Connector_housing>
 *   <Harness id="n"><Connector_occurrence id="x"><Id>B3.X</Id><Description>Rail pressure sensor</Description><Part>h</Part>
 *     <Slots id="t"><Part>s</Part><Cavities id="d"><Part>c</Part></Cavities></Slots></Connector_occurrence></Harness>
 * </k:KBL_container>`;
 * const bytes = Uint8Array.from(text, (character) => character.charCodeAt(0));
 * const made = runReading(kblReader.read(bytes, { fileName: "sensor.kbl" }));
 * expect(made?.ok && made.value.document.connectors.map((connector) => connector.label)).toEqual(["Rail pressure sensor"]);
 * ```
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
  yield { share: 0.6, doing: "Understanding the file" };
  const { source, problems } = readKblSource(tree.value);
  if (source) {
    const ledgerOf = () => source.account.ledger(tree.value, options.fileName, KBL_CLASSES);
    return yield* assembleSource(source, options, problems, ledgerOf);
  }
  const list = problems.length > 0 ? problems : [importProblem("source-no-harness", {}, { wanted: "Harness" })];
  return err(list.map((problem) => ({ ...problem, at: { file: options.fileName, ...problem.at } })));
}
