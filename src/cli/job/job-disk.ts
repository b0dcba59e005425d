import { randomBytes } from "node:crypto";
import { open, readdir, readFile, rename, rm, stat } from "node:fs/promises";
import { hostname } from "node:os";
import { join } from "node:path";

/** What a job file needs of a disk; a part of its own, so that a crash at every single step can be tried out. */
export interface JobDisk {
  /** The text of a file; undefined if there is none. */
  readonly read: (path: string) => Promise<string | undefined>;
  /** Makes a file that is not there yet and waits until it is on the disk; false if it is there. */
  readonly writeNew: (path: string, text: string) => Promise<boolean>;
  readonly rename: (from: string, to: string) => Promise<void>;
  /** Removes a file; one that is not there is no fault. */
  readonly remove: (path: string) => Promise<void>;
  /** Names of the plain files in a folder, those behind links too: a pipe may keep a reader waiting for ever. */
  readonly list: (folder: string) => Promise<readonly string[]>;
  /** Waits until what was renamed in a folder is on the disk, where the computer can tell. */
  readonly syncFolder: (folder: string) => Promise<void>;
  /** Seconds since a file was written; 0 if there is none. */
  readonly ageSeconds: (path: string) => Promise<number>;
  /** Whether a program with this number runs on this computer. */
  readonly isRunning: (processId: number) => boolean;
  /** When a program began, as a text that no other program with its number has; undefined where this computer does not tell. */
  readonly startOf: (processId: number) => Promise<string | undefined>;
  readonly processId: number;
  readonly host: string;
  /** A name that nobody else takes. */
  readonly unique: () => string;
  readonly wait: (milliseconds: number) => Promise<void>;
}

/** The disk of the running computer. */
export function realDisk(): JobDisk {
  return {
    read,
    writeNew,
    rename,
    remove: (path) => rm(path, { force: true }),
    list,
    syncFolder,
    ageSeconds,
    isRunning,
    startOf,
    processId: process.pid,
    host: hostname(),
    unique: () => randomBytes(6).toString("hex"),
    wait: (milliseconds) => new Promise((resolve) => void setTimeout(resolve, milliseconds)),
  };
}

async function read(path: string): Promise<string | undefined> {
  try {
    const facts = await stat(path);
    // A pipe or a device may never end, and a rename would put a file in its place.
    if (!facts.isFile() && !facts.isDirectory()) throw new Error("it is not a plain file");
    return await readFile(path, "utf8");
  } catch (fault) {
    if (codeOf(fault) === "ENOENT") return undefined;
    throw fault;
  }
}

async function writeNew(path: string, text: string): Promise<boolean> {
  let file;
  try {
    file = await open(path, "wx");
  } catch (fault) {
    if (codeOf(fault) === "EEXIST") return false;
    throw fault;
  }
  try {
    await file.writeFile(text, "utf8");
    await file.sync();
  } finally {
    await file.close();
  }
  return true;
}

async function list(folder: string): Promise<readonly string[]> {
  const names: string[] = [];
  for (const entry of await readdir(folder, { withFileTypes: true })) {
    const behind = entry.isSymbolicLink() ? await stat(join(folder, entry.name)).catch(() => undefined) : entry;
    if (behind?.isFile() === true) names.push(entry.name);
  }
  return names;
}

/** A folder cannot be opened everywhere; where it cannot, the rename itself has to do. */
async function syncFolder(folder: string): Promise<void> {
  try {
    const handle = await open(folder, "r");
    await handle.sync().finally(() => handle.close());
  } catch {
    return;
  }
}

async function ageSeconds(path: string): Promise<number> {
  try {
    return (Date.now() - (await stat(path)).mtimeMs) / 1000;
  } catch {
    return 0;
  }
}

function isRunning(processId: number): boolean {
  try {
    process.kill(processId, 0);
    return true;
  } catch (fault) {
    // It runs, but belongs to somebody else.
    return codeOf(fault) === "EPERM";
  }
}

/**
 * The boot of the computer and the ticks since then, on Linux.
 *
 * Source: proc(5), field 22 (starttime) of /proc/pid/stat; the name in the second field may hold spaces and brackets.
 */
async function startOf(processId: number): Promise<string | undefined> {
  try {
    const stat = await readFile(`/proc/${processId}/stat`, "utf8");
    const ticks = stat.slice(stat.lastIndexOf(")") + 2).split(" ")[22 - 3];
    if (ticks === undefined) return undefined;
    return `${(await readFile("/proc/sys/kernel/random/boot_id", "utf8")).trim()} ${ticks}`;
  } catch {
    return undefined;
  }
}

/** The name of a fault of the system, such as `ENOENT`. */
export function codeOf(fault: unknown): string | undefined {
  return fault instanceof Error && "code" in fault && typeof fault.code === "string" ? fault.code : undefined;
}
