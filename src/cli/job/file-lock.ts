import { err, ok, type Result } from "../../base/index.ts";
import type { JobDisk } from "./job-disk.ts";

const TRIES = 200;
const PAUSE_MS = 25;
/** A lock that names nobody was left half written; whoever writes one takes no second for it. */
const HALF_WRITTEN_SECONDS = 5;

interface Owner {
  readonly host: string;
  readonly processId: number;
}

/**
 * Does something to a file while nobody else does. A program that ended while it held the lock, be it by a crash, does not keep it.
 *
 * @param disk The disk.
 * @param path The file; the lock is a file beside it.
 * @param work What is done.
 * @returns What the work gave; or who holds the lock, if it could not be had within five seconds.
 */
export async function withLock<Value>(
  disk: JobDisk,
  path: string,
  work: () => Promise<Value>,
): Promise<Result<Value, string>> {
  const lock = `${path}.lock`;
  const own = JSON.stringify({ host: disk.host, processId: disk.processId, token: disk.unique() });
  let isHeld = false;
  for (let tries = 0; !isHeld && tries < TRIES; tries++) {
    isHeld = await disk.writeNew(lock, own);
    if (!isHeld && !(await clearIfLeft(disk, lock))) await disk.wait(PAUSE_MS);
  }
  if (!isHeld) return err(`another program is writing it; if none is, delete ${lock}`);
  try {
    await clearGuardIfLeft(disk, lock);
    return ok(await work());
  } finally {
    if ((await disk.read(lock)) === own) await disk.remove(lock);
  }
}

/** Removes a lock whose program is gone. Only one does so at a time, so that a lock taken meanwhile is not removed. */
async function clearIfLeft(disk: JobDisk, lock: string): Promise<boolean> {
  const text = await disk.read(lock);
  if (text === undefined) return true;
  if (!(await isLeft(disk, lock, text))) return false;
  const guard = guardOf(lock);
  if (!(await disk.writeNew(guard, ""))) {
    await clearGuardIfLeft(disk, lock);
    return false;
  }
  try {
    if ((await disk.read(lock)) === text) await disk.remove(lock);
    return true;
  } finally {
    await disk.remove(guard);
  }
}

/** Who clears a lock holds this for a moment. */
function guardOf(lock: string): string {
  return `${lock}.clear`;
}

async function clearGuardIfLeft(disk: JobDisk, lock: string): Promise<void> {
  if ((await disk.ageSeconds(guardOf(lock))) > HALF_WRITTEN_SECONDS) await disk.remove(guardOf(lock));
}

async function isLeft(disk: JobDisk, lock: string, text: string): Promise<boolean> {
  const owner = readOwner(text);
  if (!owner) return (await disk.ageSeconds(lock)) > HALF_WRITTEN_SECONDS;
  return owner.host === disk.host && owner.processId !== disk.processId && !disk.isRunning(owner.processId);
}

function readOwner(text: string): Owner | undefined {
  try {
    const data: unknown = JSON.parse(text);
    if (typeof data !== "object" || data === null || !("host" in data) || !("processId" in data)) return undefined;
    const { host, processId } = data;
    return typeof host === "string" && typeof processId === "number" ? { host, processId } : undefined;
  } catch {
    return undefined;
  }
}
