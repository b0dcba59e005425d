import { ok, type Result } from "../base/index.ts";
import type { HarnessDocument } from "../harness-model/index.ts";
import { type ErrorReport, harnessJsonBytes, openMachine, writeHarnessJson } from "../application/index.ts";
import type { CommandIo } from "./io.ts";
import { readMachine } from "./read-machine.ts";
import { saveFile, wrongCommand } from "./save-file.ts";

/** Where a changed document goes. */
export interface ChangeTarget {
  readonly out?: string;
  readonly inPlace?: boolean;
  readonly force?: boolean;
}

/**
 * Reads a harness document, changes it and writes it: to a new file, or in the place of the old one where that is said. What was changed is
 * checked as any document before it is written, and nothing is written where it would not open.
 *
 * @param io Where to read and write.
 * @param file The document.
 * @param target Where it goes.
 * @param change Makes the new document, or says why it cannot.
 * @returns The new document and where it was written, or what kept it from being written.
 */
export async function changeMachine(
  io: CommandIo,
  file: string,
  target: ChangeTarget,
  change: (document: HarnessDocument) => Result<HarnessDocument, ErrorReport>,
): Promise<Result<{ readonly document: HarnessDocument; readonly written: string }, ErrorReport>> {
  const fault = targetFault(file, target);
  if (fault !== undefined) return { ok: false, error: wrongCommand(fault) };
  const machine = await readMachine(io, file);
  if (!machine.ok) return machine;
  const changed = change(machine.value.document);
  if (!changed.ok) return changed;
  const opened = openMachine(writeHarnessJson(changed.value));
  if (!opened.ok) {
    const text = "The changed document does not open. Nothing is written:";
    return { ok: false, error: { kind: "error", code: "file-problems", text, problems: opened.error } };
  }
  const inPlace = target.inPlace === true;
  const out = inPlace ? file : (target.out ?? "-");
  const failed = await saveFile(io, { out, force: inPlace || target.force === true }, harnessJsonBytes(changed.value));
  return failed ? { ok: false, error: failed } : ok({ document: changed.value, written: out });
}

function targetFault(file: string, { out, inPlace = false }: ChangeTarget): string | undefined {
  if (inPlace && out !== undefined) return "Give --out or --in-place, not both.";
  if (!inPlace && out === undefined) return "Name the new document: --out FILE, or --in-place.";
  if (inPlace && (file === "demo" || file === "-")) return `"${file}" cannot be replaced. Name a new file with --out.`;
  if (out !== undefined && out !== "-" && out === file)
    return "A file that is read can be replaced with --in-place only.";
  return undefined;
}
