import type { Command } from "commander";
import type { MarkedText } from "../../application/index.ts";
import { tellError } from "../tell.ts";
import { answer, questionCommand, type CommandNeeds, type QuestionOptions } from "./common.ts";

interface CommonOptions extends QuestionOptions {
  readonly works: readonly string[];
  readonly unknown: readonly string[];
}

/**
 * Adds the command `common`.
 *
 * @param program The program.
 * @param needs What the command is given.
 */
export function addCommon(program: Command, needs: CommandNeeds): void {
  questionCommand(program, "common", "common wiring of circuits: in all that fail, in none that work")
    .argument("<items...>", "items whose circuits fail")
    .option("-g, --works <item>", "an item whose circuit works; may be repeated", collect, [])
    .option("-u, --unknown <item>", "an item that is not tested yet; may be repeated", collect, [])
    .action((file: string, bad: readonly string[], options: CommonOptions) => {
      const items: readonly MarkedText[] = [
        ...bad.map((text) => ({ text, mark: "bad" as const })),
        ...options.works.map((text) => ({ text, mark: "good" as const })),
        ...options.unknown.map((text) => ({ text, mark: "unknown" as const })),
      ];
      if (items.length >= 2) return answer(needs, { file, options }, { kind: "common", items });
      const text = "Name two or more items to compare.";
      const report = { kind: "error", code: "wrong-command", text, problems: [] } as const;
      return needs.finish(tellError(needs.io, report, options.json === true));
    });
}

function collect(value: string, before: readonly string[]): readonly string[] {
  return [...before, value];
}
