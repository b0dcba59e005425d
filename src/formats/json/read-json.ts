import { err, ok } from "../../base/index.ts";
import { openHarness } from "../../model/index.ts";
import type { FormatReader, Reading, ReadOptions } from "../format-reader.ts";
import { carryProblem, importProblem } from "../import-problem.ts";
import { recogniseFile } from "../recognise-file.ts";
import { decodeText } from "../text/decode-text.ts";

/** Most bytes of a harness document. */
const MOST_BYTES = 128 * 1024 * 1024;

/** Reads a harness document, `*.ohm.json`. */
export const jsonReader: FormatReader = {
  id: "json",
  label: "Harness document",
  extensions: [".ohm.json", ".json"],
  recognises: (bytes, fileName) => recogniseFile(bytes, fileName).kind === "json",
  read: readJson,
};

function* readJson(bytes: Uint8Array, options: ReadOptions): Reading {
  const file = options.fileName;
  const limit = options.mostBytes ?? MOST_BYTES;
  if (bytes.length === 0) return err([importProblem("file-empty", { file }, { bytes: 0 })]);
  if (bytes.length > limit) return err([importProblem("file-too-large", { file }, { bytes: bytes.length, limit })]);
  const decoded = decodeText(bytes);
  if (!decoded.ok) return err([{ ...decoded.error, at: { file } }]);
  yield { share: 0.3, doing: "Checking the harness" };
  const opened = openHarness(decoded.value.text);
  const found = opened.ok ? opened.value.warnings : opened.error;
  const problems = found.map((problem) => carryProblem(problem, { file, path: problem.at.path }));
  return opened.ok ? ok({ document: opened.value.document, warnings: problems }) : err(problems);
}
