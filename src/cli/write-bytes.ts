import { lstat, open, rename, rm, writeFile } from "node:fs/promises";
import { err, ok, type Result } from "../base/index.ts";

/** Why a file was not written that is there. */
export const IS_THERE = "it is there already";

/**
 * Writes a file of the running computer, whole or not at all: bytes go to a file beside it, which then takes its place.
 *
 * @param path Its path.
 * @param bytes What it holds.
 * @param replace Whether a file that is there may be replaced.
 * @returns Nothing, or why it was not written.
 */
export async function writeBytes(
  path: string,
  bytes: Uint8Array,
  replace: boolean,
): Promise<Result<undefined, string>> {
  try {
    if (!replace) return await writeNew(path, bytes);
    if (!(await isPlainFile(path))) {
      await writeFile(path, bytes);
      return ok(undefined);
    }
    const beside = `${path}.${process.pid}.part`;
    const made = await writeNew(beside, bytes);
    if (made.ok) await rename(beside, path);
    return made;
  } catch (fault) {
    return err(whyNotWritten(fault));
  }
}

/** Writes a file that must not be there yet, and leaves nothing behind if that fails half-way. */
async function writeNew(path: string, bytes: Uint8Array): Promise<Result<undefined, string>> {
  const file = await open(path, "wx");
  try {
    await file.writeFile(bytes);
    await file.close();
    return ok(undefined);
  } catch (fault) {
    await file.close().catch(() => undefined);
    await rm(path, { force: true });
    return err(whyNotWritten(fault));
  }
}

/** Links, pipes and devices are written to, not replaced; so is what is not there yet. */
async function isPlainFile(path: string): Promise<boolean> {
  try {
    return (await lstat(path)).isFile();
  } catch {
    return false;
  }
}

/**
 * Why something was not written, as a sentence without its subject.
 *
 * @param fault What the system threw.
 */
export function whyNotWritten(fault: unknown): string {
  const code = fault instanceof Error && "code" in fault ? fault.code : undefined;
  switch (code) {
    case "EEXIST":
      return IS_THERE;
    case "ENOENT":
    case "ENOTDIR":
      return "there is no such folder";
    case "EACCES":
    case "EPERM":
    case "EROFS":
      return "it may not be written";
    case "EISDIR":
      return "it is a folder";
    case "ENOSPC":
      return "there is no room left";
    default:
      return fault instanceof Error ? fault.message : String(fault);
  }
}
