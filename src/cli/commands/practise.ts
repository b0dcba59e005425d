import type { Command } from "commander";
import { addPractiseClass } from "../practise/add-class.ts";
import { addPractiseCheck } from "../practise/add-check.ts";
import { addPractiseGrade } from "../practise/add-grade.ts";
import { addPractiseNew } from "../practise/add-new.ts";
import type { CommandNeeds } from "./common.ts";

/**
 * Adds the command `practise` with its own commands.
 *
 * @param program The program.
 * @param needs What the commands are given.
 */
export function addPractise(program: Command, needs: CommandNeeds): void {
  const practise = program.command("practise").description("task lists and results of practice, for the trainer");
  for (const add of [addPractiseNew, addPractiseCheck, addPractiseGrade, addPractiseClass]) add(practise, needs);
}
