import type { Command } from "commander";
import { answer, questionCommand, type CommandNeeds, type QuestionOptions } from "./common.ts";

/**
 * Adds the command `find`.
 *
 * @param program The program.
 * @param needs What the command is given.
 */
export function addFind(program: Command, needs: CommandNeeds): void {
  questionCommand(program, "find", "search by address, label, colour, conductor size, net or trouble code (DTC)")
    .argument("<words...>", "words that all must fit, in any order")
    .action((file: string, words: readonly string[], options: QuestionOptions) =>
      answer(needs, { file, options }, { kind: "find", text: words.join(" ") }),
    );
}
