import { err, ok, type Result } from "../base/index.ts";
import { importFormat, openMachine, type ErrorReport, type Machine } from "../application/index.ts";
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
  const bytes = await readBytes(io, file);
  if (!bytes.ok) return bytes;
  const foreign = foreignFormat(bytes.value, file);
  if (foreign !== undefined) return err(toBeImported(file, foreign));
  try {
    return ok(new TextDecoder("utf-8", { fatal: true }).decode(bytes.value));
  } catch {
    // Thrown where the bytes are no UTF-8, or more than a text can hold.
    return err(unreadable(file, "it is not UTF-8 text; a harness document is saved as UTF-8"));
  }
}

/**
 * Reads a file of any kind.
 *
 * @param io Where to read.
 * @param file As for {@link readMachineText}.
 */
export async function readBytes(io: CommandIo, file: string): Promise<Result<Uint8Array, ErrorReport>> {
  const bytes = file === "-" ? await io.readInput() : await io.readFile(file === "demo" ? io.ownFile(DEMO) : file);
  return bytes.ok ? bytes : err(unreadable(file, bytes.error));
}

/** Name of the format of a file that can be imported but is no harness document. */
function foreignFormat(bytes: Uint8Array, file: string): string | undefined {
  const format = importFormat(bytes, file);
  // What cannot be imported either gets the words of whoever tries to open it.
  return format.ok && format.value.id !== "json" ? format.value.label : undefined;
}

function toBeImported(file: string, format: string): ErrorReport {
  const text =
    `Cannot open ${nameOf(file)}: it is not a harness document. It looks like another format (${format}). ` +
    `Import it first: ohmward import ${file} --out machine.ohm.json`;
  return { kind: "error", code: "file-unreadable", text, problems: [] };
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
