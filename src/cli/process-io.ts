import { readFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { safeText } from "../base/index.ts";
import type { CommandIo } from "./io.ts";
import { readFileBytes, readStreamBytes } from "./read-bytes.ts";
import { writeBytes } from "./write-bytes.ts";

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
    readFile: (path) => readFileBytes(path),
    readInput: () => readStreamBytes(process.stdin),
    writeFile: writeBytes,
    ...(process.stderr.isTTY ? { showProgress } : {}),
    ownFile,
    version: readVersion(ownFile("package.json")),
    system: `Node ${process.version}, ${process.platform} ${process.arch}`,
    untilStopped,
  };
}

/** Written over itself in one line of the terminal. */
function showProgress(text: string): void {
  process.stderr.write(`\r\u001b[K${text}`);
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
