import type { FileReport, DocumentSummary } from "../file-report.ts";
import { bullets, counted, section } from "./frame.ts";

/**
 * Problems of a file as lines: severity, code, place, what is wrong, what to do about it.
 *
 * @param problems The problems.
 */
export function writeProblems(problems: FileReport["problems"]): readonly string[] {
  return problems.flatMap(({ severity, code, at, message, hint }) => [
    `${severity} ${code} at ${placeWords(at)}`,
    `  ${message}`,
    `  ${hint}`,
  ]);
}

/**
 * Problems and content of a file, as lines.
 *
 * @param report The report.
 */
export function writeFileReport(report: FileReport): readonly string[] {
  const { file, errors, warnings, holds, problems } = report;
  const counts = `${counted(errors, "error")}, ${counted(warnings, "warning")}`;
  const head = holds
    ? [`${file}: opens (${counts})`, ...leadSetupLines(holds)]
    : [`${file}: does not open (${counts})`];
  const end = holds ? canAskLines(holds, file) : [];
  return [...head, ...(problems.length === 0 ? [] : ["", ...writeProblems(problems)]), ...end];
}

/**
 * What can be asked of a document yet, as lines.
 *
 * @param holds What it holds.
 * @param file Where it is, for the command that is named.
 */
export function canAskLines({ canAsk }: DocumentSummary, file: string): readonly string[] {
  return section("What you can ask now", [...bullets(canAsk), `  What is missing: ohmward gaps ${file}`]);
}

/** How much a document holds, as lines. */
export function leadSetupLines(holds: DocumentSummary): readonly string[] {
  return [
    `${holds.machine}`,
    `  builds ${holds.builds.join(", ")}; states ${holds.states.join(", ") || "none"}`,
    `  ${counted(holds.components, "component")}, ${counted(holds.connectors, "connector")}, ${counted(holds.wires, "wire")}, ` +
      `${counted(holds.splices, "splice")}, ${counted(holds.terminalStuds, "terminal stud")}, ${counted(holds.segments, "segment")}`,
  ];
}

function placeWords({ path, id, line, column, build }: FileReport["problems"][number]["at"]): string {
  const parts = [
    line === undefined ? "" : `line ${line}${column === undefined ? "" : `, column ${column}`}`,
    path,
    id === undefined ? "" : `(${id})`,
    build === undefined ? "" : `in build ${build}`,
  ];
  return parts.filter((part) => part !== "").join(" ") || "the file itself";
}
