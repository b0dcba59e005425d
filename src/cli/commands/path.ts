import { Option, type Command } from "commander";
import type { Question } from "../../application/index.ts";
import { answer, questionCommand, type CommandNeeds, type QuestionOptions } from "./common.ts";

type Through = NonNullable<Extract<Question, { kind: "path" }>["through"]>;
interface PathOptions extends QuestionOptions {
  readonly include?: Through;
}

const WIDTHS: readonly Through[] = ["conductors", "switches-and-fuses", "loads", "control-units"];

/**
 * Adds the command `path`.
 *
 * @param program The program.
 * @param needs What the command is given.
 */
export function addPath(program: Command, needs: CommandNeeds): void {
  const width = new Option(
    "-t, --include <what>",
    "what the path may include: conductors; switches-and-fuses, also fuses, switches and relay contacts; loads, also loads and coils; " +
      "control-units, also through control units (the narrowest that joins the two, if left out)",
  ).choices(WIDTHS);
  questionCommand(program, "path", "path between two points: every wire, contact, splice and part")
    .argument("<from>", "first point")
    .argument("<to>", "second point")
    .addOption(width)
    .action((file: string, from: string, to: string, options: PathOptions) => {
      const through = options.include === undefined ? {} : { through: options.include };
      return answer(needs, { file, options }, { kind: "path", from, to, ...through });
    });
}
