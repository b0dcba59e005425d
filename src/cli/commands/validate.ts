import type { Command } from "commander";
import { openMachine, reportOnFile, writeReport } from "../../application/index.ts";
import { nameOf, readMachineText } from "../read-machine.ts";
import { jsonText, tellError } from "../tell.ts";
import type { CommandNeeds } from "./common.ts";

/**
 * Adds the command `validate`.
 *
 * @param program The program.
 * @param needs What the command is given.
 */
export function addValidate(program: Command, { io, finish }: CommandNeeds): void {
  program
    .command("validate")
    .description("check a harness document and list all problems")
    .argument("<file>", 'harness document, "demo" or "-"')
    .option("--json", "report as JSON on standard output")
    .action(async (file: string, options: { readonly json?: boolean }) => {
      const asJson = options.json === true;
      const text = await readMachineText(io, file);
      if (!text.ok) return finish(tellError(io, text.error, asJson));
      const opened = openMachine(text.value);
      const report = reportOnFile(nameOf(file), opened.ok ? opened.value : opened.error);
      io.out(asJson ? jsonText(report) : writeReport(report));
      finish(report.kind === "valid" ? 0 : 1);
    });
}
