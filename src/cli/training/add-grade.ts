import type { Command } from "commander";
import { gradesReport, isClean, writeGradesReport, type ErrorReport } from "../../application/index.ts";
import type { CommandNeeds } from "../commands/common.ts";
import type { ExitCode } from "../exit-code.ts";
import { readMachine } from "../read-machine.ts";
import { wrongCommand } from "../save-file.ts";
import { jsonText, tellError } from "../tell.ts";
import { gradeHandedIn } from "./read-handed-in.ts";

interface GradeOptions {
  readonly json?: boolean;
}

/** Adds the command `training grade`. */
export function addTrainingGrade(training: Command, needs: CommandNeeds): void {
  training
    .command("grade")
    .description("grade result files from the recorded steps, not from the points in the file")
    .argument("<file>", 'harness document, "demo" or "-"')
    .argument("<files...>", "result files and their exercise list, recognised by their content")
    .option("--json", "report as JSON on standard output")
    .action(async (file: string, files: readonly string[], options: GradeOptions) => {
      const done = await runGrade(needs, { file, files }, options);
      needs.finish(typeof done === "number" ? done : tellError(needs.io, done, options.json === true));
    });
}

async function runGrade(
  { io }: CommandNeeds,
  { file, files }: { readonly file: string; readonly files: readonly string[] },
  { json = false }: GradeOptions,
): Promise<ExitCode | ErrorReport> {
  if ([file, ...files].filter((each) => each === "-").length > 1)
    return wrongCommand("Standard input can be read only once.");
  const machine = await readMachine(io, file);
  if (!machine.ok) return machine.error;
  const grading = await gradeHandedIn(io, machine.value, files);
  const report = gradesReport(machine.value.document.about.machine, grading);
  io.out(json ? jsonText(report) : writeGradesReport(report));
  return isClean(grading) ? 0 : 1;
}
