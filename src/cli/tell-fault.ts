import { err, faultLine, type Result } from "../base/index.ts";
import { caseFileName, writeCase, type CaseContent, type ErrorReport } from "../application/index.ts";
import type { ExitCode } from "./exit-code.ts";
import type { CommandIo } from "./io.ts";
import { reportWish } from "./report-wish.ts";
import { tellError } from "./tell.ts";

/** A command that a fault of the program ended. */
export interface FailedCommand {
  /** The words of the command line. */
  readonly args: readonly string[];
  /** What it had read by then, by name; filled only where the person agreed that it goes into the case. */
  readonly read?: ReadonlyMap<string, Uint8Array>;
  /** Whether the answer as data is wanted and none was written yet. */
  readonly asJson: boolean;
}

/**
 * Tells a fault of the program: a plain sentence, what to do, and a file that holds the case. The stack goes into the file only.
 *
 * @param io Where to write.
 * @param fault What was thrown.
 * @param command The command.
 * @returns How the command ends.
 */
export async function tellFault(io: CommandIo, fault: unknown, command: FailedCommand): Promise<ExitCode> {
  const { args, asJson } = command;
  const { file, withFiles } = reportWish(args);
  const at = new Date().toISOString();
  const files = withFiles ? await filesOf(io, command) : [];
  const text = writeCase({ program: io.version, system: io.system, at, asked: args, fault, files });
  const saved = await saveCase(io, [...(file === undefined ? [] : [file]), caseFileName(at)], text);
  const holds = withFiles ? "the command, the error and the files that were read" : "the command and the error";
  const advice =
    saved.path === undefined
      ? `Add --report <file> to save the case elsewhere. The error was ${faultLine(fault)}`
      : `If it fails again, send ${saved.path} to the authors of the program. It has ${holds}.`;
  const report: ErrorReport = {
    kind: "error",
    code: "program-fault",
    text: ["The program has failed. The fault is in Ohmward. Try again.", ...saved.faults, advice].join(" "),
    problems: [],
  };
  tellError(io, report, asJson);
  return 3;
}

/** Saves the case under the first name that can be written. */
async function saveCase(
  io: CommandIo,
  paths: readonly string[],
  text: string,
): Promise<{ readonly path?: string; readonly faults: readonly string[] }> {
  const faults: string[] = [];
  for (const path of paths) {
    const written = await io.writeFile(path, new TextEncoder().encode(text), false).catch(failed);
    if (written.ok) return { path, faults };
    faults.push(`The case cannot be saved in ${path}: ${written.error}.`);
  }
  return { faults };
}

/** What was read, and what the command names and had not read yet. */
async function filesOf(io: CommandIo, { args, read = new Map() }: FailedCommand): Promise<readonly CaseContent[]> {
  const all = new Map(read);
  for (const arg of args) {
    if (all.has(arg) || arg.startsWith("-")) continue;
    const bytes = await io.readFile(arg).catch(failed);
    if (bytes.ok) all.set(arg, bytes.value);
  }
  return [...all].map(([name, bytes]) => contentOf(name, bytes));
}

/** What fails while a fault is told must not keep it from being told. */
function failed(fault: unknown): Result<never, string> {
  return err(faultLine(fault));
}

function contentOf(name: string, bytes: Uint8Array): CaseContent {
  try {
    return { name, text: new TextDecoder("utf-8", { fatal: true }).decode(bytes) };
  } catch {
    return { name, base64: Buffer.from(bytes).toString("base64") };
  }
}
