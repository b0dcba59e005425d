import type { Command } from "commander";
import { answer, questionCommand, type CommandNeeds, type QuestionOptions } from "./common.ts";

/**
 * Adds the command `circuit`.
 *
 * @param program The program.
 * @param needs What the command is given.
 */
export function addCircuit(program: Command, needs: CommandNeeds): void {
  questionCommand(program, "circuit", "circuit at a point: supply side, loads, ground side")
    .argument("<thing>", "contact, wire, splice, component or trouble code (DTC)")
    .action((file: string, point: string, options: QuestionOptions) =>
      answer(needs, { file, options }, { kind: "circuit", point }),
    );
}
