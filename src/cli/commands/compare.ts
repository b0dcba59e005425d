import type { Command } from "commander";
import { askCompare, compareCsv, writeCompare } from "../../application/index.ts";
import { readMachine } from "../read-machine.ts";
import { saveFile, wrongCommand } from "../save-file.ts";
import { jsonText, tellAnswer, tellError } from "../tell.ts";
import type { CommandNeeds } from "./common.ts";

interface CompareOptions {
  readonly buildA?: string;
  readonly buildB?: string;
  readonly state?: string;
  readonly csv?: string;
  readonly force?: boolean;
  readonly json?: boolean;
}

/**
 * Adds the command `compare`.
 *
 * @param program The program.
 * @param needs What the command is given.
 */
export function addCompare(program: Command, { io, finish }: CommandNeeds): void {
  program
    .command("compare")
    .description("what changed between two revisions, builds or machines")
    .argument("<before>", 'harness document, "demo" or "-"')
    .argument("<after>", "the one to compare it with; may be the same with another build")
    .option("--build-a <id>", "build of the first (all builds are compared, if both are left out)")
    .option("--build-b <id>", "build of the second")
    .option("-s, --state <id>", "state for the expected readings (the first with the key on, if left out)")
    .option("--csv <file>", 'write the changes as a CSV table; "-" for standard output')
    .option("--force", "replace a file that is there already")
    .option("--json", "answer as JSON on standard output")
    .action(
      async (
        before: string,
        after: string,
        { buildA, buildB, state, csv, force = false, json = false }: CompareOptions,
      ) => {
        const fail = (text: string): void => finish(tellError(io, wrongCommand(text), json));
        if (before === "-" && after === "-") return fail("Standard input can be read once only.");
        if (json && csv === "-") return fail("Standard output can have one output only. Leave out --json or --csv -.");
        if (csv !== undefined && csv !== "-" && [before, after].includes(csv))
          return fail("A file that is read cannot be replaced.");
        const left = await readMachine(io, before);
        if (!left.ok) return finish(tellError(io, left.error, json));
        const right = before === after ? left : await readMachine(io, after);
        if (!right.ok) return finish(tellError(io, right.error, json));
        const asked = askCompare(
          { machine: left.value, build: buildA },
          { machine: right.value, build: buildB },
          state,
        );
        if (!asked.ok) return finish(tellAnswer(io, asked.error, json));
        const failed = csv === undefined ? undefined : await saveFile(io, { out: csv, force }, compareCsv(asked.value));
        if (failed) return finish(tellError(io, failed, json));
        if (json) io.out(jsonText(asked.value));
        else if (csv !== "-") io.out(writeCompare(asked.value));
        finish(0);
      },
    );
}
