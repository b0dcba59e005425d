import { safeLines, unreachable } from "../../base/index.ts";
import type { JobAnswer } from "./job-answers.ts";
import { onCommandLine } from "./text/job-words.ts";
import { writeNext } from "./text/write-next.ts";
import { writeChecks, writeRefusal, writeReportText, writeSheet, writeShow, writeWeights } from "./text/write-views.ts";

/** How an answer about a job is written. */
export interface JobTextOptions {
  /** The file of the job as it was typed, for the commands that are named. */
  readonly file: string;
  /** The file of the machine, where it was named. */
  readonly machine?: string;
  /** A report as the sheet for a clipboard in place of the write-up. */
  readonly asSheet?: boolean;
}

/**
 * Writes an answer about a job as plain text for people.
 *
 * @param answer The answer.
 * @param options How.
 * @returns The text, with a line end at its end.
 * @example
 * ```ts
 * import { jobRefusal, writeJobAnswer } from "ohmward/application";
 * const refusal = jobRefusal("no-machine", "No data of the machine was found.");
 * expect(writeJobAnswer(refusal, { file: "coolant.ohmjob.json" })).toBe("No data of the machine was found.\n");
 * ```
 */
export function writeJobAnswer(answer: JobAnswer, options: JobTextOptions): string {
  return safeLines(linesOf(answer, options));
}

function linesOf(answer: JobAnswer, { file, machine, asSheet = false }: JobTextOptions): readonly string[] {
  switch (answer.kind) {
    case "job-next":
      return writeNext(
        answer,
        machine === undefined ? onCommandLine(file) : `${onCommandLine(file)} --machine ${onCommandLine(machine)}`,
      );
    case "job-checks":
      return writeChecks(answer);
    case "job":
      return writeShow(answer);
    case "job-weights":
      return writeWeights(answer);
    case "job-report":
      return asSheet ? writeSheet(answer) : writeReportText(answer);
    case "job-refused":
      return writeRefusal(answer);
    default:
      return unreachable(answer);
  }
}
