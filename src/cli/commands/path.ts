import { Option, type Command } from "commander";
import type { Question } from "../../application/index.ts";
import { answer, questionCommand, type CommandNeeds, type QuestionOptions } from "./common.ts";

type Through = NonNullable<Extract<Question, { kind: "between" }>["through"]>;
interface BetweenOptions extends QuestionOptions {
  readonly through?: Through;
}

const WIDTHS: readonly Through[] = ["conductors", "series", "circuit", "everything"];

/**
 * Adds the command `between`.
 *
 * @param program The program.
 * @param needs What the command is given.
 */
export function addPath(program: Command, needs: CommandNeeds): void {
  const width = new Option(
    "-t, --through <width>",
    "how far to go: conductors alone; series, also fuses, switches and relay contacts; circuit, also loads and coils; " +
      "everything, also inside control units (the narrowest that joins the two, if left out)",
  ).choices(WIDTHS);
  questionCommand(program, "between", "every wire, contact, splice and part between two things")
    .argument("<from>", "where to start")
    .argument("<to>", "where to end")
    .addOption(width)
    .action((file: string, from: string, to: string, options: BetweenOptions) => {
      const through = options.through === undefined ? {} : { through: options.through };
      return answer(needs, { file, options }, { kind: "between", from, to, ...through });
    });
}
