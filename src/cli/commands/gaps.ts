import type { Command } from "commander";
import { gapsReport, writeGapsReport } from "../../application/index.ts";
import { readMachine } from "../read-machine.ts";
import { jsonText, tellError } from "../tell.ts";
import type { CommandNeeds } from "./common.ts";

/**
 * Adds the command `gaps`.
 *
 * @param program The program.
 * @param needs What the command is given.
 */
export function addGaps(program: Command, { io, finish }: CommandNeeds): void {
  program
    .command("gaps")
    .description("show what you can ask about a machine now, and which data is missing")
    .argument("<file>", 'harness document, "demo" or "-"')
    .option("--json", "report as JSON on standard output")
    .action(async (file: string, options: { readonly json?: boolean }) => {
      const asJson = options.json === true;
      const machine = await readMachine(io, file);
      if (!machine.ok) return finish(tellError(io, machine.error, asJson));
      const report = gapsReport(machine.value.document);
      io.out(asJson ? jsonText(report) : writeGapsReport(report, file));
      finish(report.items.length === 0 ? 0 : 1);
    });
}
