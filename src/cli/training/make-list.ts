import { err, type Result } from "../../base/index.ts";
import {
  makeTasks,
  readWrittenFaults,
  type FileProblem,
  type Machine,
  type MadeTasks,
  type WrittenFault,
} from "../../application/index.ts";
import type { CommandIo } from "../io.ts";
import { readBytes } from "../read-machine.ts";
import type { NewTasksOptions } from "./training-options.ts";

/**
 * Reads the tables of faults and makes the task list that the options ask for.
 *
 * @param io Where to read.
 * @param machine The machine.
 * @param options What is wanted; its build has been chosen already.
 * @returns The list, or the problems of all files and tasks at once.
 */
export async function makeList(
  io: CommandIo,
  machine: Machine,
  options: NewTasksOptions & { readonly build: string },
): Promise<Result<MadeTasks, readonly FileProblem[]>> {
  const { build, level, title, number, drills, kind, exercises } = options;
  const written: WrittenFault[] = [];
  const problems: FileProblem[] = [];
  for (const name of options.written) {
    const bytes = await readBytes(io, name);
    if (bytes.ok) {
      const read = readWrittenFaults({ name, bytes: bytes.value }, { build, level });
      written.push(...read.faults);
      problems.push(...read.problems);
    } else problems.push(unreadable(name, bytes.error.text));
  }
  if (written.length + drills + exercises === 0) return err(problems);
  const asksHypothesis = options.hypothesis === true;
  const made = makeTasks(machine, {
    ...{ title, asksHypothesis, build, level, first: number, drills, kinds: kind, exercises, written },
  });
  return problems.length === 0 ? made : err([...problems, ...(made.ok ? [] : made.error)]);
}

/** A file that cannot be read, among the problems of others. */
export function unreadable(file: string, message: string): FileProblem {
  return {
    severity: "error",
    code: "file-unreadable",
    at: { file },
    message,
    hint: "Check the name and the permission to read it",
  };
}
