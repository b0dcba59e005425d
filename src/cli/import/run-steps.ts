import { runReading } from "../../application/index.ts";
import type { ReadProgress } from "../../import-export/index.ts";
import type { CommandIo } from "../io.ts";

/**
 * Runs a piece of work to its end and shows how far it has come, if there is a terminal to show it on.
 *
 * @param io Where to show it.
 * @param name What is worked on.
 * @param work The work in steps.
 */
export function runSteps<Answer>(io: CommandIo, name: string, work: Generator<ReadProgress, Answer, void>): Answer {
  let shown = "";
  const result = runReading(work, ({ share, doing }) => {
    const text = `${name.slice(0, 30)}: ${doing}, ${Math.floor(Math.min(1, share) * 100)} %`.slice(0, 78);
    if (text !== shown) io.showProgress?.(text);
    shown = text;
    return undefined;
  });
  io.showProgress?.("");
  if (result === undefined) throw new Error("Cannot finish a piece of work that nobody has stopped");
  return result;
}
