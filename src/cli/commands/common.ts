import type { Command } from "commander";
import { ask, type OpenSetting, type Question } from "../../application/index.ts";
import type { ExitCode } from "../exit-code.ts";
import type { CommandIo } from "../io.ts";
import { readMachine } from "../read-machine.ts";
import { tellAnswer, tellError } from "../tell.ts";

/** Takes note of how the command ends. */
export type Finish = (code: ExitCode) => void;

/** What a command is given. */
export interface CommandNeeds {
  readonly io: CommandIo;
  readonly finish: Finish;
}

/** The options that every question has. */
export interface QuestionOptions extends OpenSetting {
  readonly json?: boolean;
}

/**
 * Adds the arguments and options that every question has to a new command.
 *
 * @param program The program.
 * @param name Name of the command.
 * @param description What it answers.
 */
export function questionCommand(program: Command, name: string, description: string): Command {
  return program
    .command(name)
    .description(description)
    .argument("<file>", 'harness document, "demo" or "-"')
    .option("-b, --build <id>", "build (variant) of the machine; may be left out if one build only has no options")
    .option("-s, --state <id>", "state of the machine, for the cautions and permitted tests")
    .option("--json", "answer as JSON on standard output");
}

/**
 * Opens the file, asks the question, tells the answer.
 *
 * @param needs What the command is given.
 * @param asked File and options as typed.
 * @param question The question.
 */
export async function answer(
  { io, finish }: CommandNeeds,
  asked: { readonly file: string; readonly options: QuestionOptions },
  question: Question,
): Promise<void> {
  const asJson = asked.options.json === true;
  const machine = await readMachine(io, asked.file);
  if (!machine.ok) return finish(tellError(io, machine.error, asJson));
  finish(tellAnswer(io, ask(machine.value, settingOf(asked.options), question), asJson));
}

/** Build and state of a question, as far as they were typed. */
export function settingOf({ build, state }: QuestionOptions): OpenSetting {
  return { ...(build === undefined ? {} : { build }), ...(state === undefined ? {} : { state }) };
}
