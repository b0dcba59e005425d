import { err, ok, type Result } from "../base/index.ts";
import type { FormatReader } from "./format-reader.ts";
import { importProblem, type ImportProblem } from "./import-problem.ts";
import { jsonReader } from "./json.ts";
import { kblReader } from "./kbl/kbl-reader.ts";
import { recogniseFile } from "./recognise-file.ts";
import { tableSetXlsxReader, tableSetZipReader } from "./table-set/read-table-set.ts";
import { tableReaders } from "./tables/read-table.ts";
import type { TableReadOptions } from "./tables/table-options.ts";
import { vecReader } from "./vec/vec-reader.ts";
import type { HarnessReadOptions } from "./xml/assembly.ts";

/** What any reader may be told; each takes what it knows. */
export type AnyReadOptions = TableReadOptions & HarnessReadOptions;

/** Every reader, in the order in which they are named to people. */
export const readers: readonly FormatReader<AnyReadOptions>[] = [
  jsonReader,
  ...tableReaders,
  tableSetXlsxReader,
  tableSetZipReader,
  kblReader,
  vecReader,
];

/**
 * Finds the reader for a file, by its content first.
 *
 * @param bytes The file.
 * @param fileName Its name.
 * @returns The reader, or why there is none.
 * @example
 * ```ts
 * import { readerOf, runReading } from "ohmward/import-export";
 * const text = "Wire;From;To\nW1;X1:1;X2:1\n";
 * const bytes = Uint8Array.from(text, (character) => character.charCodeAt(0));
 * const found = readerOf(bytes, "list.csv");
 * const made = found.ok ? runReading(found.value.read(bytes, { fileName: "list.csv" })) : undefined;
 * expect(made?.ok && made.value.document.wires.map((wire) => wire.ends)).toEqual([["X1:1", "X2:1"]]);
 * ```
 */
export function readerOf(bytes: Uint8Array, fileName: string): Result<FormatReader<AnyReadOptions>, ImportProblem> {
  const found = recogniseFile(bytes, fileName);
  const file = { file: fileName };
  if (bytes.length === 0) return err(importProblem("file-empty", file, { bytes: 0 }));
  if (found.kind === "unknown") return err(importProblem("format-unknown", file, { reason: found.reason }));
  const reader = readers.find((each) => each.id === found.kind);
  if (reader) return ok(reader);
  return err(importProblem("format-unknown", file, { reason: "it is a VEC package; unpack it and import its files" }));
}
