import type { Command } from "commander";
import { answer, questionCommand, type CommandNeeds, type QuestionOptions } from "./common.ts";

/**
 * Adds the command `test-points`.
 *
 * @param program The program.
 * @param needs What the command is given.
 */
export function addTestPoints(program: Command, needs: CommandNeeds): void {
  questionCommand(program, "test-points", "test points of an item, safest first, and what is not permitted")
    .argument("<thing>", "contact, wire, splice or component to test")
    .action((file: string, item: string, options: QuestionOptions) =>
      answer(needs, { file, options }, { kind: "test-points", item }),
    );
}
