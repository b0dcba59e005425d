import type { Command } from "commander";
import { answer, questionCommand, type CommandNeeds, type QuestionOptions } from "./common.ts";

/**
 * Adds the command `effect`.
 *
 * @param program The program.
 * @param needs What the command is given.
 */
export function addEffect(program: Command, needs: CommandNeeds): void {
  questionCommand(program, "effect", "effect if an item is open or disconnected")
    .argument("<thing>", "wire, contact, splice, fuse, ground, connector, segment or component")
    .action((file: string, item: string, options: QuestionOptions) =>
      answer(needs, { file, options }, { kind: "effect", item }),
    );
}
