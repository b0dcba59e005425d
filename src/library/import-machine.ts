import { ok, type Result } from "../base/index.ts";
import { runReading, type AnyReadOptions, type ImportProblem, type Ledger } from "../import-export/index.ts";
import { importFile, machineOf, type Machine } from "../application/index.ts";

/** A machine that was imported, what is odd about its file, and what became of everything the file holds. */
export interface ImportedMachine {
  readonly machine: Machine;
  readonly warnings: readonly ImportProblem[];
  /** One for each file; empty where the format keeps no such account. */
  readonly ledgers: readonly Ledger[];
}

/**
 * Imports a file as a machine: pin table or wire list (CSV, XLSX), full set of tables, KBL, VEC or harness document, told apart by
 * content. Reads it from start to end without a break.
 *
 * @param bytes The file.
 * @param options Name of the file, and what is known about it: nominal voltage, meaning of the columns, sheet, colour codes.
 * @returns The checked machine; or every problem, each with its place in the file and what to do.
 */
export function importMachine(
  bytes: Uint8Array,
  options: AnyReadOptions,
): Result<ImportedMachine, readonly ImportProblem[]> {
  const read = runReading(importFile(bytes, options));
  if (!read) throw new RangeError("Cannot end an import before its last step");
  if (!read.ok) return read;
  const { document, warnings, ledgers = [] } = read.value;
  return ok({ machine: machineOf(document), warnings, ledgers });
}
