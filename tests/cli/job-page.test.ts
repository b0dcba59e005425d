import { readFileSync } from "node:fs";
import { join } from "node:path";
import { afterAll, describe, expect, test } from "vitest";
import { Command } from "commander";
import { addJob } from "../../src/cli/commands/job.ts";
import { root, run } from "./fake-io.ts";
import { jobFolder } from "./job-bench.ts";
import { words } from "./page-examples.ts";

const page = readFileSync(join(root, "docs", "using", "command-line.md"), "utf8");
const section = /\n## job\n([^]*?)\n## /u.exec(page)?.[1] ?? "";
const folder = jobFolder();
afterAll(folder.remove);

/** Commands in the order of the page, each with what is shown below it. */
const examples = [...section.matchAll(/```text\n(\$ ohmward [^]*?)```/gu)].flatMap(([, block = ""]) =>
  [...block.matchAll(/^\$ ohmward (.+)\n((?:(?!\$ ).*\n)*)/gmu)].map(([, line = "", shown = ""]) => ({ line, shown })),
);

/** The words of a command line; job files go to a folder of their own. */
function inFolder(line: string): readonly string[] {
  return words(line).map((word) => (word.endsWith(".ohmjob.json") ? folder.path(word) : word));
}

/** Three dots stand for any text. */
function pattern(shown: string): RegExp {
  const parts = shown.split("...").map((part) => part.replace(/[.*+?^${}()|[\]\\]/gu, "\\$&"));
  return new RegExp(`^${parts.join("[^]*")}$`, "u");
}

describe("the job section of docs/using/command-line.md", () => {
  test("its commands, one after the other, print what it shows", async () => {
    expect(examples.map(({ line }) => line.split(" ")[1])).toEqual(["new", "record", "undo"]);
    for (const { line, shown } of examples) {
      const { out, err } = await run(inFolder(line));
      expect(out === "" ? err : out, line).toMatch(pattern(shown));
    }
  }, 60_000);

  test("names every part of the command and every option that says something of a job", () => {
    const program = new Command();
    addJob(program, { io: undefined as never, finish: () => undefined });
    const parts = program.commands[0]?.commands ?? [];
    expect(parts.length).toBe(13);
    for (const part of parts) expect(section).toContain(`ohmward job ${part.name()} <`);
    const ofNew = parts.find((part) => part.name() === "new")?.options.map(({ long }) => long ?? "") ?? [];
    for (const option of ofNew.filter((long) => !["--json", "--id"].includes(long))) expect(section).toContain(option);
  });
});
