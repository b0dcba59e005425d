import { err, ok, type Result } from "../../base/index.ts";
import type { JobDisk } from "./job-disk.ts";

const TRIES = 200;
const PAUSE_MS = 25;
/** A lock that names nobody was left half written; writing one takes less than a second. */
const HALF_WRITTEN_SECONDS = 5;
/** A lock is held for the time of one write. Where a computer does not tell when programs began, an older one was left. */
const OLD_SECONDS = 60;

interface Owner {
  readonly host: string;
  readonly processId: number;
  /** When the program began; another one may have its number by now. */
  readonly start?: string;
}

/**
 * Works on a file while no other program does. A program that ended while it held the lock, be it by a crash, does not keep it.
 *
 * @param disk The disk.
 * @param path The file; the lock is a file beside it.
 * @param work What is done. It is given a way to ask whether the lock is held still: a program that was stopped for long may have lost it.
 * @returns What the work gave; or who holds the lock, if it could not be had within five seconds.
 */
export async function withLock<Value>(
  disk: JobDisk,
  path: string,
  work: (isHeld: () => Promise<boolean>) => Promise<Value>,
): Promise<Result<Value, string>> {
  const lock = `${path}.lock`;
  const { host, processId } = disk;
  const own = JSON.stringify({ host, processId, start: await disk.startOf(processId), token: disk.unique() });
  let isHeld = false;
  for (let tries = 0; !isHeld && tries < TRIES; tries++) {
    isHeld = await disk.writeNew(lock, own);
    if (!isHeld && !(await clearIfLeft(disk, lock))) await disk.wait(PAUSE_MS);
  }
  if (!isHeld) return err(`another program is writing it; if not, delete ${lock}`);
  try {
    await clearGuardIfLeft(disk, lock);
    return ok(await work(async () => (await disk.read(lock)) === own));
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
  if (owner.host !== disk.host) return false;
  if (owner.processId !== disk.processId && !disk.isRunning(owner.processId)) return true;
  const start = await disk.startOf(owner.processId);
  if (start !== undefined && owner.start !== undefined) return start !== owner.start;
  return (await disk.ageSeconds(lock)) > OLD_SECONDS;
}

function readOwner(text: string): Owner | undefined {
  try {
    const data: unknown = JSON.parse(text);
    if (typeof data !== "object" || data === null || !("host" in data) || !("processId" in data)) return undefined;
    const { host, processId } = data;
    if (typeof host !== "string" || typeof processId !== "number") return undefined;
    return { host, processId, ...("start" in data && typeof data.start === "string" && { start: data.start }) };
  } catch {
    return undefined;
  }
}
