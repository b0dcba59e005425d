import { Option, type Command } from "commander";
import {
  EXPORT_FORMATS,
  exportMachine,
  exportReport,
  writeExportReport,
  type ErrorReport,
  type ExportFormatId,
} from "../../application/index.ts";
import type { ExitCode } from "../exit-code.ts";
import { readMachine } from "../read-machine.ts";
import { saveFile, wrongCommand } from "../save-file.ts";
import { jsonText, tellAnswer, tellError } from "../tell.ts";
import type { CommandNeeds } from "./common.ts";

interface ExportOptions {
  readonly format: ExportFormatId;
  readonly build?: string;
  readonly out?: string;
  readonly force?: boolean;
  readonly json?: boolean;
}

/**
 * Adds the command `export`.
 *
 * @param program The program.
 * @param needs What the command is given.
 */
export function addExport(program: Command, needs: CommandNeeds): void {
  const format = new Option("--format <format>", "format of the file").choices(EXPORT_FORMATS.map((each) => each.id));
  program
    .command("export")
    .description("write a machine as wire list, pin table, set of tables, graph or drawing")
    .argument("<file>", 'harness document, "demo" or "-"')
    .addOption(format.makeOptionMandatory())
    .option("-b, --build <id>", "the one build to write; tables hold every build with its options if it is left out")
    .option(
      "-o, --out <file>",
      'where to write it; "-" for standard output (a name made from the machine, if left out)',
    )
    .option("--force", "replace a file that is there already")
    .option("--json", "report as JSON on standard output")
    .action(async (file: string, options: ExportOptions) => {
      const done = await runExport(needs, file, options);
      needs.finish(typeof done === "number" ? done : tellError(needs.io, done, options.json === true));
    });
}

async function runExport({ io }: CommandNeeds, file: string, options: ExportOptions): Promise<ExitCode | ErrorReport> {
  const { format, build, out, force = false, json = false } = options;
  const form = EXPORT_FORMATS.find((each) => each.id === format);
  if (build !== undefined && form?.builds === "all")
    return wrongCommand(`${form.label} holds every build: leave --build out.`);
  if (json && out === "-")
    return wrongCommand("Standard output can have one output only. Leave out --json or --out -.");
  if (out !== undefined && out !== "-" && out === file) return wrongCommand("A file that is read cannot be replaced.");
  const machine = await readMachine(io, file);
  if (!machine.ok) return machine.error;
  const made = exportMachine(machine.value, { format, ...(build === undefined ? {} : { build }) });
  if (!made.ok) return tellAnswer(io, made.error, json);
  const target = out ?? made.value.fileName;
  const failed = await saveFile(io, { out: target, force }, made.value.bytes);
  if (failed) return failed;
  const written = target === "-" ? "standard output" : target;
  const report = exportReport(machine.value.document.about.machine, made.value, written);
  if (json) io.out(jsonText(report));
  else if (target === "-") io.err(writeExportReport(report));
  else io.out(writeExportReport(report));
  return 0;
}
