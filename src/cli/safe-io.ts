import { safeText } from "../base/index.ts";
import type { CommandIo } from "./io.ts";

/**
 * The same world, in which no text that is shown steers the terminal, wherever it came from: a document, a file name, the command line.
 *
 * @param io The world.
 */
export function safeIo(io: CommandIo): CommandIo {
  const { out, err, showProgress } = io;
  return {
    ...io,
    out: (text) => out(safeText(text)),
    err: (text) => err(safeText(text)),
    ...(showProgress && { showProgress: (text: string) => showProgress(safeText(text.replaceAll("\n", " "))) }),
  };
}
