import type { ErrorReport } from "../application/index.ts";
import type { CommandIo } from "./io.ts";
import { IS_THERE } from "./write-bytes.ts";

/** Where a result is to go. */
export interface SaveTarget {
  /** A path, or `-` for standard output. */
  readonly out: string;
  readonly force: boolean;
}

/**
 * Saves a result.
 *
 * @param io Where to write.
 * @param target Where it is to go.
 * @param bytes What it holds.
 * @returns Why it was not written; undefined if it was.
 */
export async function saveFile(io: CommandIo, target: SaveTarget, bytes: Uint8Array): Promise<ErrorReport | undefined> {
  if (target.out === "-") {
    io.outBytes(bytes);
    return undefined;
  }
  const written = await io.writeFile(target.out, bytes, target.force);
  if (written.ok) return undefined;
  const hint = written.error === IS_THERE ? " (--force replaces it)" : "";
  return wrongCommand(`Cannot write ${target.out}: ${written.error}${hint}`);
}

/** What is wrong with a command, as a report. */
export function wrongCommand(text: string): ErrorReport {
  return { kind: "error", code: "wrong-command", text, problems: [] };
}
