import { dirname, join, resolve } from "node:path";
import { err, ok, type Result } from "../../base/index.ts";
import type { JobRecord } from "../../job-records/index.ts";
import { jobRefusal, openJob, type ErrorReport, type JobRefusal, type Machine } from "../../application/index.ts";
import type { CommandIo } from "../io.ts";
import { readMachine, readMachineText } from "../read-machine.ts";
import type { JobDisk } from "./job-disk.ts";

/** A machine with the file it came from. */
export interface FoundMachine {
  readonly machine: Machine;
  readonly file: string;
}

/** Where to look for the machine of a job. */
export interface MachineSearch {
  readonly io: CommandIo;
  readonly disk: JobDisk;
  /** The file of the job. */
  readonly job: string;
  /** The file of the machine, if it was named. */
  readonly named?: string;
}

/**
 * Finds the data of the machine a job is about: the file that was named; or else a harness document beside the job or in the working
 * folder, or the machine that comes with the program, that has the fingerprint written in the job.
 *
 * @param search Where to look.
 * @param record The job.
 * @returns The machine. If none has the fingerprint but some are data of the same machine, the first of these: opening the job with it
 *   tells that it changed.
 */
export async function findMachine(
  search: MachineSearch,
  record: JobRecord,
): Promise<Result<FoundMachine, JobRefusal | ErrorReport>> {
  const { io, named } = search;
  if (named !== undefined) {
    const machine = await readMachine(io, named);
    return machine.ok ? ok({ machine: machine.value, file: named }) : machine;
  }
  let changed: FoundMachine | undefined;
  for (const file of await possibleFiles(search, record.machine.machine)) {
    const machine = await readMachine(io, file);
    if (!machine.ok) continue;
    const opened = openJob(machine.value, record);
    if (opened.ok || opened.error.reason === "forbidden") return ok({ machine: machine.value, file });
    if (opened.error.reason === "changed-data" || opened.error.reason === "no-build") {
      changed ??= { machine: machine.value, file };
    }
  }
  if (changed) return ok(changed);
  const text = `The harness data of "${record.machine.machine}" is not beside the job or in this folder.`;
  const hint = "Name the file of the job's machine: --machine <file>.";
  const message =
    "The job has readings and possible causes, not the wiring. The wiring is read again from the harness document.";
  return err(jobRefusal("no-machine", text, [{ at: "--machine", message, hint }]));
}

/** Files that say of themselves that they are data of the machine; they are not checked for it yet. */
async function possibleFiles({ io, disk, job }: MachineSearch, machine: string): Promise<readonly string[]> {
  const folders = [...new Set([dirname(resolve(job)), resolve(".")])];
  const files: string[] = [];
  for (const folder of folders) {
    const names = await disk.list(folder).catch(() => []);
    files.push(
      ...names
        .filter((name) => name.endsWith(".ohm.json"))
        .sort()
        .map((name) => join(folder, name)),
    );
  }
  const fitting: string[] = [];
  for (const file of [...files, "demo"]) {
    const text = await readMachineText(io, file);
    if (text.ok && nameIn(text.value) === machine) fitting.push(file);
  }
  return fitting;
}

function nameIn(text: string): unknown {
  try {
    const data: unknown = JSON.parse(text);
    const about = typeof data === "object" && data !== null && "about" in data ? data.about : undefined;
    return typeof about === "object" && about !== null && "machine" in about ? about.machine : undefined;
  } catch {
    return undefined;
  }
}
