import { err, ok, type Result } from "../../base/index.ts";
import { readerOf, type AnyReadOptions, type ImportProblem, type Reading } from "../../import-export/index.ts";

/** A format as people know it. */
export interface ImportFormat {
  /** Short name, such as `csv` or `kbl`. */
  readonly id: string;
  readonly label: string;
}

/**
 * Tells the format of a file by its content, without reading it.
 *
 * @param bytes The file.
 * @param fileName Its name.
 * @returns The format, or why the file cannot be read.
 */
export function importFormat(bytes: Uint8Array, fileName: string): Result<ImportFormat, ImportProblem> {
  const reader = readerOf(bytes, fileName);
  return reader.ok ? ok({ id: reader.value.id, label: reader.value.label }) : reader;
}

/**
 * Reads a file of any known format, in steps; see `runReading` of the formats. Whoever stops asking for steps has cancelled it, and
 * nothing is changed by it: what is done with the document is for the caller to decide.
 *
 * @param bytes The file.
 * @param options What a person has said about it; each format takes what it knows.
 * @returns The steps; the last one carries the checked document with its warnings, or every problem.
 * @example
 * ```ts
 * import { runReading } from "ohmward/import-export";
 * import { importFile } from "ohmward/application";
 * const bytes = Uint8Array.from("Wire;From;To\nW1;X1:1;X2:1\n", (character) => character.charCodeAt(0));
 * const made = runReading(importFile(bytes, { fileName: "list.csv" }));
 * expect(made?.ok && made.value.document.wires.map((wire) => wire.id)).toEqual(["W1"]);
 * ```
 */
export function* importFile(bytes: Uint8Array, options: AnyReadOptions): Reading {
  const reader = readerOf(bytes, options.fileName);
  if (!reader.ok) return err([reader.error]);
  return yield* reader.value.read(bytes, options);
}
