import { err, ok } from "../base/index.ts";
import { openHarness, HarnessDocument } from "../harness-model/index.ts";
import type { FormatReader, Reading, ReadOptions } from "./format-reader.ts";
import { carryProblem, inFile, sizeFault } from "./import-problem.ts";
import { recogniseFile } from "./recognise-file.ts";
import { decodeText, encodeUtf8 } from "./text.ts";

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
  const fault = sizeFault(bytes, options.mostBytes ?? MOST_BYTES);
  if (fault) return err([inFile(fault, file)]);
  const decoded = decodeText(bytes);
  if (!decoded.ok) return err([inFile(decoded.error, file)]);
  yield { share: 0.3, doing: "Checking the harness" };
  const opened = openHarness(decoded.value.text);
  const found = opened.ok ? opened.value.warnings : opened.error;
  const problems = found.map((problem) => carryProblem(problem, { file, path: problem.at.path }));
  return opened.ok ? ok({ document: opened.value.document, warnings: problems }) : err(problems);
}

/** A list of records nested inside another gets a line a record, as long as the record that holds it is itself on a line of its own. */
const INDENT = "  ";

/**
 * Writes a harness document as `*.ohm.json`: keys in the order of the schema, one record a line, lists of records inside a record on
 * lines of their own. Writing what was read gives the same text again, however the file it was read from was laid out.
 *
 * @param document The document.
 * @returns The text with a line end at its end.
 * @throws z.ZodError if the document is not of the right shape, which no checked document is.
 */
export function writeHarnessJson(document: HarnessDocument): string {
  return `${writeRecord(HarnessDocument.parse(document), "", true)}\n`;
}

/** The bytes of `writeHarnessJson`, UTF-8 without a byte order mark. */
export function harnessJsonBytes(document: HarnessDocument): Uint8Array {
  return encodeUtf8(writeHarnessJson(document));
}

function writeRecord(record: object, indent: string, isTop: boolean): string {
  const entries = Object.entries(record).filter(([, value]) => value !== undefined);
  const written = entries.map(([key, value]) => [key, writeValue(value, indent + INDENT)] as const);
  const isLong = isTop || written.some(([, text]) => text.includes("\n"));
  const parts = written.map(([key, text]) => `${JSON.stringify(key)}: ${text}`);
  if (!isLong) return `{${parts.join(", ")}}`;
  return `{\n${parts.map((part) => `${indent}${INDENT}${part}`).join(",\n")}\n${indent}}`;
}

function writeValue(value: unknown, indent: string): string {
  if (Array.isArray(value)) return writeList(value, indent);
  if (typeof value === "object" && value !== null) return writeRecord(value, indent, false);
  return JSON.stringify(value);
}

function writeList(list: readonly unknown[], indent: string): string {
  const hasRecords = list.some((entry) => typeof entry === "object" && entry !== null && !Array.isArray(entry));
  const parts = list.map((entry) => writeValue(entry, indent + INDENT));
  if (!hasRecords) return `[${parts.join(", ")}]`;
  return `[\n${parts.map((part) => `${indent}${INDENT}${part}`).join(",\n")}\n${indent}]`;
}
