import { safeLines, unreachable } from "../base/index.ts";
import type { Answer } from "./answer.ts";
import type { ErrorReport, FileReport } from "./file-report.ts";
import { writePath, writeNoPath } from "./text/write-path.ts";
import { writeExpectedReading, writeWrongQuestion } from "./text/write-expected.ts";
import { writeChoose, writeFind, writeUnresolved } from "./text/write-list.ts";
import { writeTestPoints } from "./text/write-test-points.ts";
import { writeFileReport, writeProblems } from "./text/write-problems.ts";
import { writeCommon } from "./text/write-common.ts";
import { writeTable } from "./text/write-table.ts";
import { writeCircuitAnswer } from "./text/write-circuit.ts";
import { writeEffect } from "./text/write-effect.ts";

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
    case "path":
      return writePath(answer);
    case "no-path":
      return writeNoPath(answer);
    case "circuit":
      return writeCircuitAnswer(answer);
    case "common":
      return writeCommon(answer);
    case "effect":
      return writeEffect(answer);
    case "test-points":
      return writeTestPoints(answer);
    case "find":
      return writeFind(answer);
    case "value":
    case "floating":
    case "overload":
    case "refused":
    case "contradictory":
    case "no-steady-state":
      return writeExpectedReading(answer);
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
