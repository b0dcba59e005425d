import { readFileSync } from "node:fs";
import { join } from "node:path";
import { err, ok } from "ohmward/base";
import type { CommandIo } from "../../src/cli/io.ts";
import { runCommandLine } from "../../src/cli/program.ts";

/** Top folder of the project. */
export const root = join(import.meta.dirname, "..", "..");

/** What a command line did. */
export interface Ran {
  readonly code: number;
  readonly out: string;
  readonly err: string;
  /** Files written, by path. */
  readonly written: ReadonlyMap<string, Uint8Array>;
}

/** The world of a command: its files by name, its standard input, where its own files lie. */
export interface World {
  readonly files?: Readonly<Record<string, string | Uint8Array>>;
  readonly input?: string | Uint8Array;
  readonly packageFolder?: string;
  readonly untilStopped?: () => Promise<void>;
  /** Told of each file before it is read; what it throws is a fault of the program. */
  readonly onRead?: (path: string) => void;
  /** Why no file can be written. */
  readonly unwritable?: string;
  /** Told of each piece of output as it comes. */
  readonly onOut?: (text: string) => void;
  /** Told how far a long piece of work has come. */
  readonly onProgress?: (text: string) => void;
}

/** Runs a command line in a world of its own. */
export async function run(args: readonly string[], world: World = {}): Promise<Ran> {
  let [out, errors] = ["", ""];
  const written = new Map<string, Uint8Array>();
  const io: CommandIo = {
    out: (text) => {
      out += text;
      world.onOut?.(text);
    },
    outBytes: (data) => (out += new TextDecoder().decode(data)),
    err: (text) => (errors += text),
    writeFile: (path, data, replace) => {
      if (world.unwritable !== undefined) return Promise.resolve(err(world.unwritable));
      const isThere = Object.hasOwn(world.files ?? {}, path) || written.has(path);
      if (isThere && !replace) return Promise.resolve(err("it is there already"));
      written.set(path, data);
      return Promise.resolve(ok(undefined));
    },
    ...(world.onProgress && { showProgress: world.onProgress }),
    readFile: async (path) => {
      world.onRead?.(path);
      return Promise.resolve(readFrom(world, path));
    },
    readInput: () => Promise.resolve(ok(bytes(world.input ?? ""))),
    ownFile: (path) => join(world.packageFolder ?? root, path),
    version: "9.8.7",
    system: "a test",
    untilStopped: world.untilStopped ?? (() => Promise.resolve()),
  };
  return { code: await runCommandLine(args, io), out, err: errors, written };
}

function readFrom(
  { files = {} }: World,
  path: string,
): ReturnType<typeof ok<Uint8Array>> | ReturnType<typeof err<string>> {
  const known = new Map(Object.entries(files)).get(path);
  if (known !== undefined) return ok(bytes(known));
  try {
    return ok(readFileSync(path));
  } catch {
    return err("there is no such file");
  }
}

function bytes(data: string | Uint8Array): Uint8Array {
  return typeof data === "string" ? new TextEncoder().encode(data) : data;
}
