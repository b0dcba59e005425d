import type { Command } from "commander";
import {
  chooseBuild,
  encodeUtf8,
  type ErrorReport,
  madeTasksReport,
  type TasksReport,
  writeTasksReport,
} from "../../application/index.ts";
import type { CommandNeeds } from "../commands/common.ts";
import type { ExitCode } from "../exit-code.ts";
import { readMachine } from "../read-machine.ts";
import { saveFile, wrongCommand } from "../save-file.ts";
import { jsonText, tellAnswer, tellError } from "../tell.ts";
import { makeList } from "./make-list.ts";
import { newTasksOptions, type NewTasksOptions } from "./training-options.ts";

/** Adds the command `training new`. */
export function addTrainingNew(training: Command, needs: CommandNeeds): void {
  const command = training
    .command("new")
    .description("generate exercises for a class")
    .argument("<file>", 'harness document, "demo" or "-"')
    .option("-b, --build <id>", "build (variant) of the machine for exercises without one");
  for (const option of newTasksOptions()) command.addOption(option);
  command
    .option("--title <text>", "title of the list", "Practice")
    .option("--hypothesis", "require a stated cause before each action")
    .option("-o, --out <file>", 'where to write it; "-" for standard output', "practice.ohmtasks.json")
    .option("--force", "replace a file that is there already")
    .option("--json", "report as JSON on standard output")
    .action(async (file: string, options: NewTasksOptions) => {
      const done = await runNew(needs, file, options);
      needs.finish(typeof done === "number" ? done : tellError(needs.io, done, options.json === true));
    });
}

async function runNew({ io }: CommandNeeds, file: string, options: NewTasksOptions): Promise<ExitCode | ErrorReport> {
  const { out, force = false, json = false } = options;
  const fault = commandFault(file, options);
  if (fault !== undefined) return wrongCommand(fault);
  const machine = await readMachine(io, file);
  if (!machine.ok) return machine.error;
  const chosen = chooseBuild(machine.value, options.build);
  if (!chosen.ok) return tellAnswer(io, chosen.error, json);
  const made = await makeList(io, machine.value, { ...options, build: chosen.value.build.id });
  if (!made.ok) {
    tell({ kind: "practice-tasks", file: out, problems: made.error });
    return 1;
  }
  const failed = await saveFile(io, { out, force }, encodeUtf8(made.value.text));
  if (failed) return failed;
  tell(madeTasksReport(machine.value, made.value.list, out === "-" ? "standard output" : out));
  return 0;

  function tell(report: TasksReport): void {
    if (json) io.out(jsonText(report));
    else if (out === "-") io.err(writeTasksReport(report));
    else io.out(writeTasksReport(report));
  }
}

function commandFault(file: string, options: NewTasksOptions): string | undefined {
  const { drills, exercises, written, kind, out, json = false, title } = options;
  if (drills + exercises + written.length === 0)
    return "Choose the content of the list: --drills, --exercises or --written.";
  if (kind.length > 0 && drills === 0) return "--kind is for drills: give --drills as well.";
  if (json && out === "-") return "Standard output can have one output only. Leave out --json or --out -.";
  if ([file, ...written].filter((each) => each === "-").length > 1) return "Standard input can be read once only.";
  if (out !== "-" && [file, ...written].includes(out)) return "A file that is read cannot be replaced.";
  return title.length > 600 ? "The title is too long. It can have 600 characters." : undefined;
}
