import { existsSync, readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { root } from "../../../structure/support/project-files.ts";
import { runReading, type FormatReader, type ReadResult } from "../../../../src/import-export/format-reader.ts";
import { kblReader } from "../../../../src/import-export/kbl/kbl-reader.ts";
import { vecReader } from "../../../../src/import-export/vec/vec-reader.ts";
import type { HarnessReadOptions } from "../../../../src/import-export/xml/assembly.ts";
import type { XmlDocument } from "../../../../src/import-export/xml/xml-element.ts";
import { readXml } from "../../../../src/import-export/xml/read-xml.ts";
import { fitBuild, type Harness, type HarnessDocument } from "../../../../src/harness-model/index.ts";

/**
 * Folder with harness files that others have published, with subfolders `kbl`, `vec` and `xsd`. They have licences of their own and
 * are no part of this project; without the folder the tests on them are left out. Named by the environment, or a folder
 * `harness-standards` in one that lies beside the checkout.
 */
const folder = process.env["OHMWARD_STANDARD_FILES"] ?? folderBeside();

function folderBeside(): string | undefined {
  const outside = join(root, "..");
  const found = readdirSync(outside).map((name) => join(outside, name, "harness-standards"));
  return found.find((each) => existsSync(join(each, "kbl")));
}

/** Put into the name of every test that needs those files. */
export const NEEDS_FILES = "(needs published harness files)";

/** The path of a published file, or undefined where it is not at hand. */
export function publishedPath(path: string): string | undefined {
  const whole = folder === undefined ? undefined : join(folder, path);
  return whole !== undefined && existsSync(whole) ? whole : undefined;
}

/** The bytes of a published file; an empty file where it is not at hand. */
export function publishedFile(path: string): Uint8Array {
  const whole = publishedPath(path);
  return whole === undefined ? new Uint8Array() : new Uint8Array(readFileSync(whole));
}

/** The bytes of a file of the demo folder. */
export function demoFile(name: string): Uint8Array {
  return new Uint8Array(readFileSync(join(root, "demo-harness", name)));
}

/** The readers of this folder. */
export const readers: readonly FormatReader<HarnessReadOptions>[] = [kblReader, vecReader];

/** Reads a file with whichever reader recognises it by its content. */
export function readHarness(bytes: Uint8Array, options: Partial<HarnessReadOptions> = {}): ReadResult {
  const reader = readers.find((each) => each.recognises(bytes, "file"));
  if (!reader) throw new Error("No reader recognises the file");
  const result = runReading(reader.read(bytes, { fileName: "file", ...options }));
  if (!result) throw new Error("The reading was stopped");
  return result;
}

/** The document of a file that has to be readable. */
export function readDocument(bytes: Uint8Array, options: Partial<HarnessReadOptions> = {}): HarnessDocument {
  const result = readHarness(bytes, options);
  if (!result.ok) throw new Error(result.error.map((problem) => `${problem.code}: ${problem.message}`).join("\n"));
  return result.value.document;
}

/** The tree of a file that has to be well-formed. */
export function readTree(bytes: Uint8Array): XmlDocument {
  const result = runReading(readXml(bytes));
  if (!result?.ok) throw new Error("The file is not well-formed");
  return result.value;
}

/** The harness of one build, the first if none is named. */
export function fit(document: HarnessDocument, build: string | undefined = document.builds[0]?.id): Harness {
  const harness = fitBuild(document, build ?? "");
  if (!harness) throw new Error("There is no such build");
  return harness;
}

/** The value, which has to be there. */
export function must<Value>(value: Value | undefined): Value {
  if (value === undefined) throw new Error("It is not there");
  return value;
}
