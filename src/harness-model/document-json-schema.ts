import type { GeneratedFile } from "../base/index.ts";
import { schemaFile } from "./schema-file.ts";
import { FORMAT_VERSION, HarnessDocument } from "./schema/document.ts";

/**
 * The files of `data-schemas/` that this room owns: the JSON Schema of the harness document.
 *
 * The schema says what shape a document has. What shape cannot say - that ids are unique, that names lead somewhere, that a build
 * fits together - is checked by `openHarness`.
 *
 * @returns One file; the same text at every call.
 *
 * Source: JSON Schema, draft 2020-12.
 */
export function generatedFiles(): readonly GeneratedFile[] {
  const head = { name: "harness-document", title: "harness document", madeFrom: "src/harness-model/schema" };
  return [schemaFile(HarnessDocument, { ...head, version: FORMAT_VERSION })];
}
