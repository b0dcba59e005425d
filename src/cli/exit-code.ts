import { unreachable } from "../base/index.ts";
import type { Answer, TableReading } from "../application/index.ts";

/** How a command ends: 0 answered, 1 the answer is "no" or problems were found, 2 the question or the file was wrong, 3 the program failed. */
export type ExitCode = 0 | 1 | 2 | 3;

/**
 * How a command ends that has this answer.
 *
 * @param answer The answer.
 */
export function exitCodeOf(answer: Answer): ExitCode {
  switch (answer.kind) {
    case "path":
    case "circuit":
    case "effect":
      return 0;
    case "value":
    case "floating":
    case "overload":
      return 0;
    case "no-path":
    case "refused":
    case "contradictory":
    case "no-steady-state":
      return 1;
    case "table":
      return answer.legs.some(({ rows }) => rows.some(({ reading }) => hasReading(reading))) ? 0 : 1;
    case "common":
      return answer.items.length > 0 ? 0 : 1;
    case "test-points":
      return answer.points.length > 0 ? 0 : 1;
    case "find":
      return answer.hits.length > 0 ? 0 : 1;
    case "unknown":
    case "ambiguous":
    case "not-fitted":
    case "empty":
    case "choose-build":
    case "choose-state":
    case "wrong-question":
      return 2;
    default:
      return unreachable(answer);
  }
}

/** Floating is a reading too. */
function hasReading({ kind }: TableReading): boolean {
  return kind === "value" || kind === "floating" || kind === "overload";
}
