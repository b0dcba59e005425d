import { writeAnswer, writeReport, type Answer, type ErrorReport } from "../application/index.ts";
import { exitCodeOf, type ExitCode } from "./exit-code.ts";
import type { CommandIo } from "./io.ts";

/**
 * Tells an answer: as text, or as one JSON document. What is no answer yet, such as an unknown name, goes to standard error.
 *
 * @param io Where to write.
 * @param answer The answer.
 * @param asJson Whether data is wanted on standard output.
 * @returns How the command ends.
 */
export function tellAnswer(io: CommandIo, answer: Answer, asJson: boolean): ExitCode {
  const code = exitCodeOf(answer);
  if (asJson) io.out(jsonText(answer));
  if (code === 2) io.err(writeAnswer(answer));
  else if (!asJson) io.out(writeAnswer(answer));
  return code;
}

/**
 * Tells why a question could not be put: as text on standard error and, if data is wanted, as one JSON document too.
 *
 * @param io Where to write.
 * @param report Why.
 * @param asJson Whether data is wanted on standard output.
 * @returns How the command ends.
 */
export function tellError(io: CommandIo, report: ErrorReport, asJson: boolean): ExitCode {
  if (asJson) io.out(jsonText(report));
  io.err(writeReport(report));
  return 2;
}

/** One JSON document with a line end. */
export function jsonText(data: unknown): string {
  return `${JSON.stringify(data, undefined, 2)}\n`;
}
