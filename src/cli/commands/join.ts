import type { Command } from "commander";
import { ok, type Result } from "../../base/index.ts";
import type { HarnessDocument } from "../../harness-model/index.ts";
import { applyJoins, gapsReport, proposeJoins, writeGapsReport, type ErrorReport } from "../../application/index.ts";
import { changeMachine, type ChangeTarget } from "../change-machine.ts";
import { readMachine } from "../read-machine.ts";
import { wrongCommand } from "../save-file.ts";
import { jsonText, tellError } from "../tell.ts";
import type { CommandNeeds } from "./common.ts";

interface JoinOptions extends ChangeTarget {
  readonly by?: string;
  readonly on?: string;
  readonly json?: boolean;
}

/**
 * Adds the command `join`.
 *
 * @param program The program.
 * @param needs What the command is given.
 */
export function addJoin(program: Command, { io, finish }: CommandNeeds): void {
  program
    .command("join")
    .description("list wires with one end that may belong together (same signal and colour); join those that you name")
    .argument("<file>", "harness document")
    .argument("[proposals...]", "names of the proposals that are right, such as J1 J4; without names they are listed")
    .option("--by <name>", "name of the person who confirms them")
    .option("--on <date>", "date of the statement, as 2026-11-30 (today, if left out)")
    .option("-o, --out <file>", 'the new document; "-" for standard output')
    .option("--in-place", "replace the old document")
    .option("--force", "replace a file that is there already")
    .option("--json", "proposals as JSON on standard output")
    .action(async (file: string, names: readonly string[], options: JoinOptions) => {
      const asJson = options.json === true;
      const tellLeft = (document: HarnessDocument, name: string): void => {
        const report = { ...gapsReport(document), items: [] };
        const none = report.joins.length > 0 ? "" : "No wires with one end have the same signal and colour.\n";
        const text = asJson ? jsonText(report.joins) : `${none}${writeGapsReport(report, name)}`;
        if (options.out === "-") io.err(text);
        else io.out(text);
      };
      if (names.length === 0) {
        const machine = await readMachine(io, file);
        if (!machine.ok) return finish(tellError(io, machine.error, asJson));
        tellLeft(machine.value.document, file);
        return finish(proposeJoins(machine.value.document).length > 0 ? 0 : 1);
      }
      const done = await changeMachine(io, file, options, (document) => joinNamed(document, names, options));
      if (!done.ok) return finish(tellError(io, done.error, asJson));
      tellLeft(done.value.document, done.value.written);
      finish(0);
    });
}

function joinNamed(
  document: HarnessDocument,
  names: readonly string[],
  { by = "", on = new Date().toISOString().slice(0, 10) }: JoinOptions,
): Result<HarnessDocument, ErrorReport> {
  if (by.trim() === "") return refuse("The name is missing. Give it with --by NAME.");
  const joined = applyJoins(document, names, { by: by.trim(), on });
  if (joined.ok) return ok(joined.value);
  return refuse(`No such proposal: ${joined.error.join(", ")}. List them with ohmward join FILE.`);
}

function refuse(text: string): Result<never, ErrorReport> {
  return { ok: false, error: wrongCommand(text) };
}
