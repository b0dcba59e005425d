import { Option, type Command } from "commander";
import { FIND_GROUPS, type FindGroup } from "../../application/index.ts";
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
    .addOption(new Option("--all <group>", "every item of one group").choices(FIND_GROUPS))
    .action((file: string, words: readonly string[], options: QuestionOptions & { readonly all?: FindGroup }) =>
      answer(
        needs,
        { file, options },
        { kind: "find", text: words.join(" "), ...(options.all && { group: options.all }) },
      ),
    );
}
