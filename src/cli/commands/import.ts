import { Option, type Command } from "commander";
import {
  ACCEPTED_KINDS,
  csvBytes,
  type ErrorReport,
  harnessJsonBytes,
  type ImportReport,
  importReport,
  pinTableTemplate,
  problemsCsv,
  writeImportMap,
  writeImportReport,
} from "../../application/index.ts";
import type { ExitCode } from "../exit-code.ts";
import {
  readAccepted,
  readColours,
  readNewBuild,
  readVoltage,
  type ImportCommandOptions,
} from "../import/import-options.ts";
import { readFiles, type ImportRun } from "../import/read-files.ts";
import { saveFile, wrongCommand } from "../save-file.ts";
import { jsonText, tellError } from "../tell.ts";
import type { CommandNeeds } from "./common.ts";

/**
 * Adds the command `import`.
 *
 * @param program The program.
 * @param needs What the command is given.
 */
export function addImport(program: Command, needs: CommandNeeds): void {
  const template = new Option("--template <shape>", "write an empty table to fill in, with a row for each pin or wire");
  program
    .command("import")
    .description("import pin tables, wire lists, KBL or VEC files into a harness document")
    .argument("[files...]", "CSV, XLSX, table sets, KBL, VEC or harness documents, recognised by their content")
    .option(
      "-o, --out <file>",
      'where to write the harness document; "-" for standard output (nothing is written without)',
    )
    .option("--force", "replace files that are there already")
    .option("--sheet <name>", "sheet of a workbook")
    .option("--columns <file>", "column meanings and colour codes of a table, as --save-columns writes them")
    .option("--save-columns <file>", "save the column meanings and colour codes, to keep or edit")
    .option("--repairs <file>", "cells and rows of a table that a person has corrected, as the screen saves them")
    .option("--colour-code <code>", "iec-60757, or the codes of the file: B=BU,W=WH", readColours)
    .option("--machine <name>", "name of the machine")
    .option("--voltage <volts>", "nominal voltage of the machine", readVoltage)
    .option(
      "--variant <id=options>",
      "build (variant) to make from options of a KBL or VEC file; may be repeated",
      readNewBuild,
      [],
    )
    .option("-p, --mate <A=B>", "two connectors that mate; may be repeated", collect, [])
    .option(
      "--accept <sorts>",
      `proposals that are right, by sort: ${Object.keys(ACCEPTED_KINDS).join(", ")}; or all`,
      readAccepted,
    )
    .option("--problems <file>", "write all problems as a CSV table")
    .option("--json", "report as JSON on standard output")
    .addOption(template.choices(["pins", "wires"]))
    .action(async (files: readonly string[], options: ImportCommandOptions) => {
      const done = await runImport(needs, files, options);
      needs.finish(typeof done === "number" ? done : tellError(needs.io, done, options.json === true));
    });
}

async function runImport(
  { io }: CommandNeeds,
  files: readonly string[],
  options: ImportCommandOptions,
): Promise<ExitCode | ErrorReport> {
  const force = options.force === true;
  if (options.template !== undefined) {
    if (files.length > 0) return wrongCommand("A template needs no files. Leave them out.");
    const bytes = csvBytes(pinTableTemplate(options.template === "pins" ? "pin" : "wire"));
    return (await saveFile(io, { out: options.out ?? "-", force }, bytes)) ?? 0;
  }
  const fault = commandFault(files, options);
  if (fault !== undefined) return wrongCommand(fault);
  const run = await readFiles(io, files, options);
  if (!run.ok) return run.error;
  const { result } = run.value;
  const unsaved = await saveSideFiles({ io }, run.value, options);
  if (unsaved) return unsaved;
  if (result.ok && options.out !== undefined) {
    const failed = await saveFile(io, { out: options.out, force }, harnessJsonBytes(result.value.document));
    if (failed) return failed;
  }
  const isWritten = result.ok && options.out !== undefined;
  const report = importReport({ ...run.value, ...(isWritten ? { written: options.out } : {}) });
  tellImport({ io }, report, options);
  return result.ok ? 0 : 1;
}

function commandFault(files: readonly string[], options: ImportCommandOptions): string | undefined {
  if (files.length === 0) return "Name a file to import, or ask for a table to fill in with --template.";
  if (files.filter((file) => file === "-").length > 1) return "Standard input can be read once only.";
  if (options.json === true && options.out === "-")
    return "Standard output can have one output only. Leave out --json or --out -.";
  if (options.problems === "-" || options.saveColumns === "-")
    return "Problems and maps are written to files: name one.";
  const written = [options.out, options.problems, options.saveColumns].filter((path) => path !== undefined);
  if (new Set(written).size < written.length) return "Two outputs cannot be written to one file.";
  if (written.some((path) => path !== "-" && files.includes(path))) return "A file that is read cannot be replaced.";
  return undefined;
}

async function saveSideFiles(
  { io }: Pick<CommandNeeds, "io">,
  { result, preview, said }: ImportRun,
  options: ImportCommandOptions,
): Promise<ErrorReport | undefined> {
  const force = options.force === true;
  if (options.problems !== undefined) {
    const problems = result.ok ? result.value.warnings : result.error;
    const failed = await saveFile(io, { out: options.problems, force }, problemsCsv(problems));
    if (failed) return failed;
  }
  if (options.saveColumns === undefined || !preview) return undefined;
  const bytes = new TextEncoder().encode(writeImportMap(preview, said));
  return saveFile(io, { out: options.saveColumns, force }, bytes);
}

function tellImport({ io }: Pick<CommandNeeds, "io">, report: ImportReport, options: ImportCommandOptions): void {
  if (options.json === true) {
    io.out(jsonText(report));
    return;
  }
  const text = writeImportReport(report);
  const hint =
    options.out === undefined ? "\nNothing was written; --out machine.ohm.json writes the harness document.\n" : "";
  const whole = report.kind === "imported" ? `${text}${hint}` : text;
  if (options.out === "-") io.err(whole);
  else io.out(whole);
}

function collect(value: string, before: readonly string[]): readonly string[] {
  return [...before, value];
}
