import { runSteps } from "../import/run-steps.ts";
import { gradeFiles, type FileProblem, type Grading, type HandedIn, type Machine } from "../../application/index.ts";
import type { CommandIo } from "../io.ts";
import { readBytes } from "../read-machine.ts";
import { unreadable } from "./make-list.ts";

/**
 * Reads result files, and the task list that may be among them, and grades them; files that cannot be read are problems among the others.
 *
 * @param io Where to read, and to show how far the work has come.
 * @param machine The machine.
 * @param files Their paths.
 */
export async function gradeHandedIn(io: CommandIo, machine: Machine, files: readonly string[]): Promise<Grading> {
  const handedIn: HandedIn[] = [];
  for (const name of files) handedIn.push(await readText(io, name));
  return runSteps(io, "practice", gradeFiles(machine, handedIn));
}

/** Reads one file of practice. */
export async function readText(io: CommandIo, name: string): Promise<HandedIn> {
  const bytes = await readBytes(io, name);
  if (!bytes.ok) return { name, problem: unreadable(name, bytes.error.text) };
  try {
    return { name, text: new TextDecoder("utf-8", { fatal: true }).decode(bytes.value) };
  } catch {
    return { name, problem: notText(name) };
  }
}

function notText(file: string): FileProblem {
  const hint = "Give a exercise list (*.ohmtasks.json) or a result file (*.ohmresult.json)";
  return { severity: "error", code: "not-text", at: { file }, message: "The file is not UTF-8 text", hint };
}
