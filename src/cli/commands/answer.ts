import type { Command } from "commander";
import { ok, type Result } from "../../base/index.ts";
import type { HarnessDocument } from "../../harness-model/index.ts";
import { answerGap, gapsReport, likeConnectors, writeGapsReport, type ErrorReport } from "../../application/index.ts";
import { changeMachine, type ChangeTarget } from "../change-machine.ts";
import { wrongCommand } from "../save-file.ts";
import { jsonText, tellError } from "../tell.ts";
import type { CommandNeeds } from "./common.ts";

interface AnswerOptions extends ChangeTarget {
  readonly by: string;
  readonly on?: string;
  readonly reason?: string;
  readonly alike?: boolean;
  readonly json?: boolean;
}

/**
 * Adds the command `answer`.
 *
 * @param program The program.
 * @param needs What the command is given.
 */
export function addAnswer(program: Command, { io, finish }: CommandNeeds): void {
  program
    .command("answer")
    .description("add missing data to a harness document, such as: A1.X1 sealed=no terminal-size=0.64")
    .argument("<file>", "harness document")
    .argument(
      "<item>",
      "connector, cavity, terminal stud, wire, net, state or zone by its id; machine for the whole machine",
    )
    .argument("<answers...>", 'what=value: sealed=no, permits=unplug,front-probe, access="5 min any", harmless=yes')
    .requiredOption("--by <name>", "name of the person who states it")
    .option("--on <date>", "date of the statement, as 2026-11-30 (today, if left out)")
    .option("--reason <text>", "why; needed for harmless")
    .option("--alike", "the same for all connectors of the same shape")
    .option("-o, --out <file>", 'the new document; "-" for standard output')
    .option("--in-place", "replace the old document")
    .option("--force", "replace a file that is there already")
    .option("--json", "report of the missing data as JSON on standard output")
    .action(async (file: string, item: string, answers: readonly string[], options: AnswerOptions) => {
      const asJson = options.json === true;
      const done = await changeMachine(io, file, options, (document) =>
        answerAll(document, { item, answers, options }),
      );
      if (!done.ok) return finish(tellError(io, done.error, asJson));
      const { document, written } = done.value;
      const report = gapsReport(document);
      const tell = written === "-" ? io.err : io.out;
      tell(
        asJson
          ? jsonText(report)
          : `Written to ${written}.\n${writeGapsReport({ ...report, items: [], joins: [] }, written)}`,
      );
      finish(0);
    });
}

interface Asked {
  readonly item: string;
  readonly answers: readonly string[];
  readonly options: AnswerOptions;
}

/** Takes all answers, for one connector or for all of its shape; with every problem if one of them does not fit. */
function answerAll(document: HarnessDocument, { item, answers, options }: Asked): Result<HarnessDocument, ErrorReport> {
  const { by, reason, on = new Date().toISOString().slice(0, 10), alike = false } = options;
  const items = [item, ...(alike ? likeConnectors(document, item).map(({ id }) => String(id)) : [])];
  let changed = document;
  const problems: string[] = [];
  for (const about of items) {
    for (const text of answers) {
      const [what = "", ...value] = text.split("=");
      const answer = { about, what, value: value.join("="), by, on, ...(reason === undefined ? {} : { reason }) };
      const taken = answerGap(changed, answer);
      if (taken.ok) changed = taken.value;
      else problems.push(`${text}: ${taken.error.message} ${taken.error.hint}`);
    }
  }
  if (problems.length === 0) return ok(changed);
  return { ok: false, error: wrongCommand(["Nothing is written.", ...new Set(problems)].join("\n")) };
}
