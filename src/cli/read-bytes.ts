import type { Stats } from "node:fs";
import { open } from "node:fs/promises";
import { err, ok, type Result } from "../base/index.ts";

/** Most bytes that are read of a file or of standard input. */
const MOST_BYTES = 512 * 1024 * 1024;
/** How often a file is read that changes under the reading. */
const TRIES = 3;

/**
 * Reads a file, a pipe or a device of the running computer.
 *
 * @param path Its path.
 * @param most Most bytes that are read.
 * @returns What it held at one moment; or why it was not read, as a sentence without its subject.
 */
export async function readFileBytes(path: string, most: number = MOST_BYTES): Promise<Result<Uint8Array, string>> {
  try {
    for (let tries = 0; tries < TRIES; tries++) {
      const read = await readOnce(path, most);
      if (read) return read;
    }
    return err("it changed while it was read. Try again when no program writes it");
  } catch (fault) {
    return err(whyNotRead(fault));
  }
}

/**
 * Reads a stream to its end.
 *
 * @param stream Such as standard input.
 * @param most Most bytes that are read.
 */
export async function readStreamBytes(
  stream: AsyncIterable<Uint8Array>,
  most: number = MOST_BYTES,
): Promise<Result<Uint8Array, string>> {
  const chunks: Uint8Array[] = [];
  let size = 0;
  try {
    for await (const chunk of stream) {
      size += chunk.length;
      if (size > most) return err(tooLarge(most));
      chunks.push(chunk);
    }
  } catch (fault) {
    return err(whyNotRead(fault));
  }
  return ok(Buffer.concat(chunks));
}

/** Nothing if the file was changed meanwhile: part of it would be of before, part of after. */
async function readOnce(path: string, most: number): Promise<Result<Uint8Array, string> | undefined> {
  const file = await open(path, "r");
  try {
    const before = await file.stat();
    if (before.isDirectory()) return err("it is a folder");
    if (!before.isFile()) return await readStreamBytes(file.createReadStream({ autoClose: false }), most);
    if (before.size > most) return err(tooLarge(most));
    const bytes = await file.readFile();
    return isSame(before, await file.stat()) ? ok(bytes) : undefined;
  } finally {
    await file.close();
  }
}

function isSame(before: Stats, after: Stats): boolean {
  return before.size === after.size && before.mtimeMs === after.mtimeMs;
}

function tooLarge(most: number): string {
  return `it has more than ${most / 1024 / 1024} MiB`;
}

function whyNotRead(fault: unknown): string {
  const code = fault instanceof Error && "code" in fault ? fault.code : undefined;
  switch (code) {
    case "ENOENT":
    case "ENOTDIR":
      return 'there is no such file (write "demo" for the machine that comes with the program)';
    case "ENAMETOOLONG":
      return "its name is too long for a file";
    case "ELOOP":
      return "it is a link to itself";
    case "ENXIO":
      return "it is not a file that can be read";
    case "EACCES":
    case "EPERM":
      return "it may not be read";
    case "EISDIR":
      return "it is a folder";
    default:
      return fault instanceof Error ? fault.message : String(fault);
  }
}
