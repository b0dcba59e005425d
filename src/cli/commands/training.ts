import type { Command } from "commander";
import { addTrainingClass } from "../training/add-class.ts";
import { addTrainingCheck } from "../training/add-check.ts";
import { addTrainingGrade } from "../training/add-grade.ts";
import { addTrainingNew } from "../training/add-new.ts";
import type { CommandNeeds } from "./common.ts";

/**
 * Adds the command `training` with its own commands.
 *
 * @param program The program.
 * @param needs What the commands are given.
 */
export function addTraining(program: Command, needs: CommandNeeds): void {
  const training = program.command("training").description("exercise lists and results of training, for the trainer");
  for (const add of [addTrainingNew, addTrainingCheck, addTrainingGrade, addTrainingClass]) add(training, needs);
}
