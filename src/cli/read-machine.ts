import { err, ok, type Result } from "../base/index.ts";
import { openMachine, type ErrorReport, type Machine } from "../workbench/index.ts";
import type { CommandIo } from "./io.ts";

/** The machine that comes with the program. */
const DEMO = "demo-harness/firnlark-45.ohm.json";

/**
 * Reads the text of a harness document.
 *
 * @param io Where to read.
 * @param file A path; `demo` for the machine that comes with the program, `-` for standard input.
 * @returns The text without a byte order mark, or why it cannot be read.
 */
export async function readMachineText(io: CommandIo, file: string): Promise<Result<string, ErrorReport>> {
  const bytes = file === "-" ? await io.readInput() : await io.readFile(file === "demo" ? io.ownFile(DEMO) : file);
  if (!bytes.ok) return err(unreadable(file, bytes.error));
  try {
    return ok(new TextDecoder("utf-8", { fatal: true }).decode(bytes.value));
  } catch {
    // Thrown where the bytes are no UTF-8, or more than a text can hold.
    return err(unreadable(file, "it is not UTF-8 text; a harness document is saved as UTF-8"));
  }
}

/**
 * Reads and opens a machine.
 *
 * @param io Where to read.
 * @param file As for {@link readMachineText}.
 * @returns The machine, or why there is none, with every problem of the file.
 */
export async function readMachine(io: CommandIo, file: string): Promise<Result<Machine, ErrorReport>> {
  const text = await readMachineText(io, file);
  if (!text.ok) return text;
  const opened = openMachine(text.value);
  if (opened.ok) return opened;
  const problems = opened.error;
  return err({ kind: "error", code: "file-problems", text: `Cannot open ${nameOf(file)}:`, problems });
}

/** What a person calls the file. */
export function nameOf(file: string): string {
  return file === "-" ? "standard input" : file;
}

function unreadable(file: string, reason: string): ErrorReport {
  return { kind: "error", code: "file-unreadable", text: `Cannot read ${nameOf(file)}: ${reason}`, problems: [] };
}
