import { readFileSync } from "node:fs";
import { readFile, stat } from "node:fs/promises";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { err, ok, safeText, type Result } from "../base/index.ts";
import type { CommandIo } from "./io.ts";
import { writeBytes } from "./write-bytes.ts";

/** Most bytes that are read of a file or of standard input. */
const MOST_BYTES = 512 * 1024 * 1024;
const TOO_LARGE = `it holds more than ${MOST_BYTES / 1024 / 1024} MiB`;

/** The folder of the package: two above this file, be it in src/cli or, built, in dist/cli. */
const packageFolder = join(dirname(fileURLToPath(import.meta.url)), "..", "..");

/** The world of a running process. */
export function processIo(): CommandIo {
  const ownFile = (path: string): string => join(packageFolder, path);
  return {
    out: (text) => void process.stdout.write(text),
    // A file or a pipe gets the bytes as they are; a terminal would be steered by what is in them.
    outBytes: (bytes) =>
      void process.stdout.write(process.stdout.isTTY ? safeText(new TextDecoder().decode(bytes)) : bytes),
    err: (text) => void process.stderr.write(text),
    readFile: readBytes,
    readInput,
    writeFile: writeBytes,
    ...(process.stderr.isTTY ? { showProgress } : {}),
    ownFile,
    version: readVersion(ownFile("package.json")),
    system: `Node ${process.version}, ${process.platform} ${process.arch}`,
    untilStopped,
  };
}

async function readBytes(path: string): Promise<Result<Uint8Array, string>> {
  try {
    const facts = await stat(path);
    if (facts.isDirectory()) return err("it is a folder");
    if (facts.size > MOST_BYTES) return err(TOO_LARGE);
    return ok(await readFile(path));
  } catch (fault) {
    return err(reasonOf(fault));
  }
}

async function readInput(): Promise<Result<Uint8Array, string>> {
  const chunks: Uint8Array[] = [];
  let size = 0;
  try {
    for await (const chunk of process.stdin as AsyncIterable<Uint8Array>) {
      size += chunk.length;
      if (size > MOST_BYTES) return err(TOO_LARGE);
      chunks.push(chunk);
    }
  } catch (fault) {
    return err(reasonOf(fault));
  }
  return ok(Buffer.concat(chunks));
}

/** Written over itself in one line of the terminal. */
function showProgress(text: string): void {
  process.stderr.write(`\r\u001b[K${text}`);
}

function reasonOf(fault: unknown): string {
  const code = fault instanceof Error && "code" in fault ? fault.code : undefined;
  switch (code) {
    case "ENOENT":
    case "ENOTDIR":
      return 'there is no such file (write "demo" for the machine that comes with the program)';
    case "EACCES":
    case "EPERM":
      return "it may not be read";
    case "EISDIR":
      return "it is a folder";
    default:
      return fault instanceof Error ? fault.message : String(fault);
  }
}

function readVersion(path: string): string {
  try {
    const manifest: unknown = JSON.parse(readFileSync(path, "utf8"));
    const isRecord = typeof manifest === "object" && manifest !== null && "version" in manifest;
    return isRecord ? String(manifest.version) : "unknown";
  } catch {
    // A package that was copied in part: the questions can be answered all the same.
    return "unknown";
  }
}

function untilStopped(): Promise<void> {
  return new Promise((resolve) => {
    for (const signal of ["SIGINT", "SIGTERM", "SIGHUP"] as const) process.once(signal, () => resolve());
  });
}
