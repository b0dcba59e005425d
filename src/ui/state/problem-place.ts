import type { ProblemPlace } from "../../harness-model/index.ts";

/** Where a problem sits, in one line: the item, the path in the document, line and column, the build. */
export function placeText({ path, id, line, column, build }: ProblemPlace): string {
  const parts = [
    id,
    path === "" ? undefined : path,
    line === undefined ? undefined : `line ${line}${column === undefined ? "" : `, column ${column}`}`,
    build === undefined ? undefined : `build ${build}`,
  ];
  return parts.filter((part) => part !== undefined).join(" · ") || "whole file";
}
