import { safeLines } from "../../base/index.ts";
import { z } from "zod";
import type { Frozen } from "../frozen.ts";
import { FileProblem, fileProblem } from "../import/file-problem.ts";
import { fileProblemLines } from "../import/write-import-report.ts";
import { bullets, section } from "../text/frame.ts";
import type { ExportedFile } from "./export-machine.ts";

/** What was written of a machine, and what the form cannot hold. */
export const ExportReport = z.object({
  kind: z.literal("exported").describe("Sort of answer"),
  machine: z.string().describe("Name of the machine"),
  format: z.string().describe("Short name of the format"),
  label: z.string().describe("Name of the format"),
  mediaType: z.string().describe("Media type of the file"),
  written: z.string().describe("Where it was written"),
  bytes: z.number().describe("Size of the file in bytes"),
  build: z.string().optional().describe("The one build that is in it; absent where all are"),
  assumptions: z.array(z.string()).describe("What is assumed, in sentences"),
  problems: z.array(FileProblem).describe("Data not saved in this format"),
});

export type ExportReport = Frozen<z.infer<typeof ExportReport>>;

/**
 * Reports on a machine that was written as a file.
 *
 * @param machine Name of the machine.
 * @param file The file.
 * @param written Where it was written.
 */
export function exportReport(machine: string, file: ExportedFile, written: string): ExportReport {
  const { format, bytes, build, assumptions, problems } = file;
  return {
    kind: "exported",
    machine,
    ...{ format: format.id, label: format.label, mediaType: format.mediaType },
    written,
    bytes: bytes.length,
    ...(build === undefined ? {} : { build }),
    assumptions,
    problems: problems.map(fileProblem),
  };
}

/**
 * Writes a report on an export as plain text for people.
 *
 * @param report The report.
 * @returns The text, with a line end at its end.
 */
export function writeExportReport(report: ExportReport): string {
  const { machine, label, written, bytes, build, assumptions, problems } = report;
  const lost = problems.filter((problem) => problem.code === "export-loses").map((problem) => problem.message);
  const others = problems.filter((problem) => problem.code !== "export-loses");
  return safeLines([
    `${written}: ${label}, ${bytes} bytes`,
    build === undefined ? `${machine}, all builds` : `${machine}, build ${build}`,
    ...section("Assumptions", bullets(assumptions)),
    ...section("Data not saved in this format", bullets(lost)),
    ...(others.length === 0 ? [] : ["", ...fileProblemLines(others)]),
  ]);
}
