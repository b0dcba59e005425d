import { readFileSync } from "node:fs";
import { join } from "node:path";
import { afterAll, describe, expect, test, vi } from "vitest";
import { root } from "../structure/support/project-files.ts";
import { removeExamples, runExample } from "../structure/support/run-example.ts";

// The release runs the same programs on the packed project; here they run on the sources, so that a changed word is found early.
const library = join(root, "src", "library");
const demo = join(root, "demo-harness", "firnlark-45.ohm.json");

/** A program with the entries of the package led to their sources, and the demo machine to where it lies. */
function onSources(code: string): string {
  return code
    .replace(/from "ohmward(?:\/(formats|diagnosis))?"/gu, (_all, entry?: string) => {
      return `from ${JSON.stringify(join(library, `${entry ?? "index"}.ts`))}`;
    })
    .replace('"ohmward/demo-harness/firnlark-45.ohm.json" with { type: "json" }', JSON.stringify(demo))
    .replaceAll('"machine.ohm.json"', JSON.stringify(demo));
}

afterAll(removeExamples);

describe("docs/using/programming.md", () => {
  const page = readFileSync(join(root, "docs", "using", "programming.md"), "utf8");
  const examples = [...page.matchAll(/^```ts\n([\s\S]*?)^```\n+```text\n([\s\S]*?)^```$/gmu)];

  test("shows below every example what it prints", () => {
    expect(examples.length).toBeGreaterThan(0);
    expect(examples.length).toBe(page.split("```ts\n").length - 1);
  });

  test.each(examples.map(([, code = "", prints = ""], index) => ({ index, code, prints })))(
    "example $index prints what the page says",
    async ({ index, code, prints }) => {
      const log = vi.spyOn(console, "log").mockImplementation(() => undefined);
      try {
        await runExample(`programming-${index}`, onSources(code));
        expect(log.mock.calls.map((words) => `${words.join(" ")}\n`).join("")).toBe(prints);
      } finally {
        log.mockRestore();
      }
    },
  );
});

test("the sample of the release asks every question and finds no answer wrong", async () => {
  const code = readFileSync(join(root, ".ci", "release", "sample.ts"), "utf8");
  await runExample(
    "release-sample",
    `${onSources(code)}\nif (report.length < 20) throw new Error("little was asked");`,
  );
});
