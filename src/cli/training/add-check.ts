import type { Command } from "commander";
import { tasksReport, writeTasksReport, type ErrorReport, type TasksReport } from "../../application/index.ts";
import type { CommandNeeds } from "../commands/common.ts";
import type { ExitCode } from "../exit-code.ts";
import { nameOf, readMachine } from "../read-machine.ts";
import { wrongCommand } from "../save-file.ts";
import { jsonText, tellError } from "../tell.ts";
import { readText } from "./read-handed-in.ts";

interface CheckOptions {
  readonly answers?: boolean;
  readonly json?: boolean;
}

/** Adds the command `training check`. */
export function addTrainingCheck(training: Command, needs: CommandNeeds): void {
  training
    .command("check")
    .description("show the content of an exercise list and its problems")
    .argument("<file>", 'harness document, "demo" or "-"')
    .argument("<tasks>", "exercise list (*.ohmtasks.json)")
    .option("--answers", "show the right answers and the inserted faults, for the trainer")
    .option("--json", "report as JSON on standard output")
    .action(async (file: string, tasks: string, options: CheckOptions) => {
      const done = await runCheck(needs, { file, tasks }, options);
      needs.finish(typeof done === "number" ? done : tellError(needs.io, done, options.json === true));
    });
}

async function runCheck(
  { io }: CommandNeeds,
  { file, tasks }: { readonly file: string; readonly tasks: string },
  { answers = false, json = false }: CheckOptions,
): Promise<ExitCode | ErrorReport> {
  if (file === "-" && tasks === "-") return wrongCommand("Standard input can be read only once.");
  const machine = await readMachine(io, file);
  if (!machine.ok) return machine.error;
  const { text, problem } = await readText(io, tasks);
  const name = nameOf(tasks);
  const report: TasksReport =
    text === undefined
      ? { kind: "practice-tasks", file: name, problems: problem ? [problem] : [] }
      : tasksReport(machine.value, { name, text }, answers);
  if (json) io.out(jsonText(report));
  // What is no task list at all is a wrong file, not a finding about one.
  if (!report.list) io.err(writeTasksReport(report));
  else if (!json) io.out(writeTasksReport(report));
  if (!report.list) return 2;
  return report.problems.length > 0 ? 1 : 0;
}
