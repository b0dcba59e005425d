import { safeLines, unreachable } from "../base/index.ts";
import type { Answer } from "./answer.ts";
import type { ErrorReport, FileReport } from "./file-report.ts";
import { writeBetween, writeNoPath } from "./text/write-between.ts";
import { writeExpect, writeWrongQuestion } from "./text/write-expect.ts";
import { writeChoose, writeFind, writeUnresolved } from "./text/write-list.ts";
import { writeProbe } from "./text/write-probe.ts";
import { writeFileReport, writeProblems } from "./text/write-problems.ts";
import { writeShared } from "./text/write-shared.ts";
import { writeTable } from "./text/write-table.ts";
import { writeTrace } from "./text/write-trace.ts";
import { writeWithout } from "./text/write-without.ts";

/**
 * Writes an answer as plain text for people: columns aligned with spaces, lines as long as they need to be, colours as letter code and
 * words, units on every number. Characters that a document may hold and that would steer a terminal are left out.
 *
 * @param answer Any answer.
 * @returns The text, with a line end at its end.
 */
export function writeAnswer(answer: Answer): string {
  return safeLines(linesOf(answer));
}

function linesOf(answer: Answer): readonly string[] {
  switch (answer.kind) {
    case "between":
      return writeBetween(answer);
    case "no-path":
      return writeNoPath(answer);
    case "trace":
      return writeTrace(answer);
    case "shared":
      return writeShared(answer);
    case "without":
      return writeWithout(answer);
    case "probe":
      return writeProbe(answer);
    case "find":
      return writeFind(answer);
    case "value":
    case "floating":
    case "over-range":
    case "refused":
    case "contradictory":
    case "no-steady-state":
      return writeExpect(answer);
    case "table":
      return writeTable(answer);
    case "wrong-question":
      return writeWrongQuestion(answer);
    case "unknown":
    case "ambiguous":
    case "not-fitted":
    case "empty":
      return writeUnresolved(answer);
    case "choose-build":
    case "choose-state":
      return writeChoose(answer);
    default:
      return unreachable(answer);
  }
}

/**
 * Writes a report on a file, or why a question could not be put, as plain text for people.
 *
 * @param report The report.
 * @returns The text, with a line end at its end.
 */
export function writeReport(report: FileReport | ErrorReport): string {
  return safeLines(
    report.kind === "error" ? [report.text, ...writeProblems(report.problems)] : writeFileReport(report),
  );
}
