import { Option, type Command } from "commander";
import {
  CLASS_VIEWS,
  classCsv,
  classReport,
  classTable,
  type ClassView,
  csvBytes,
  type ErrorReport,
  isClean,
  writeClassReport,
} from "../../application/index.ts";
import type { CommandNeeds } from "../commands/common.ts";
import type { ExitCode } from "../exit-code.ts";
import { readMachine } from "../read-machine.ts";
import { saveFile, wrongCommand } from "../save-file.ts";
import { jsonText, tellError } from "../tell.ts";
import { gradeHandedIn } from "./read-handed-in.ts";

interface ClassOptions {
  readonly csv?: string;
  readonly by: ClassView;
  readonly force?: boolean;
  readonly json?: boolean;
}

/** Adds the command `training results`. */
export function addTrainingClass(training: Command, needs: CommandNeeds): void {
  const by = new Option("--by <view>", "columns of the CSV table").choices(CLASS_VIEWS).default("task");
  training
    .command("results")
    .description("results of the class, by exercise and by skill")
    .argument("<file>", 'harness document, "demo" or "-"')
    .argument("<files...>", "result files and their exercise list, recognised by their content")
    .option("--csv <file>", 'where to write the table as CSV; "-" for standard output')
    .addOption(by)
    .option("--force", "replace a file that is there already")
    .option("--json", "report as JSON on standard output")
    .action(async (file: string, files: readonly string[], options: ClassOptions) => {
      const done = await runClass(needs, { file, files }, options);
      needs.finish(typeof done === "number" ? done : tellError(needs.io, done, options.json === true));
    });
}

async function runClass(
  { io }: CommandNeeds,
  { file, files }: { readonly file: string; readonly files: readonly string[] },
  { csv, by, force = false, json = false }: ClassOptions,
): Promise<ExitCode | ErrorReport> {
  if ([file, ...files].filter((each) => each === "-").length > 1)
    return wrongCommand("Standard input can be read once only.");
  if (json && csv === "-")
    return wrongCommand("Standard output can have one output only. Leave out --json or --csv -.");
  if (csv !== undefined && csv !== "-" && [file, ...files].includes(csv))
    return wrongCommand("A file that is read cannot be replaced.");
  const machine = await readMachine(io, file);
  if (!machine.ok) return machine.error;
  const grading = await gradeHandedIn(io, machine.value, files);
  if (csv !== undefined) {
    const failed = await saveFile(io, { out: csv, force }, csvBytes(classCsv(classTable(grading, by))));
    if (failed) return failed;
  }
  const written = csv === "-" ? "standard output" : csv;
  const report = classReport(machine.value.document.about.machine, grading, written);
  if (json) io.out(jsonText(report));
  else if (csv === "-") io.err(writeClassReport(report));
  else io.out(writeClassReport(report));
  return isClean(grading) ? 0 : 1;
}
