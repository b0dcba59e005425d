import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { METHODS, RULES } from "ohmward/measurement-safety";
import { renderRules } from "./render-rules.ts";

const page = readFileSync(new URL("../../docs/methods/safe-probing.md", import.meta.url), "utf8");

/** The cells of the table under a heading, its head line and rule left out. */
function tableUnder(heading: string): readonly (readonly string[])[] {
  const [, rest = ""] = page.split(`\n## ${heading}\n`);
  const [section = ""] = rest.split("\n## ");
  const rows = section.split("\n").filter((line) => line.startsWith("|"));
  return rows.slice(2).map((row) =>
    row
      .split("|")
      .slice(1, -1)
      .map((cell) => cell.trim().replaceAll("`", "")),
  );
}

test("the page shows the table of rules, row by row as it is", () => {
  expect(tableUnder("The rules")).toEqual(renderRules(RULES));
});

test("the page shows every method with its class", () => {
  const classes = Object.entries(METHODS).map(([method, traits]) => [method, traits.class ?? "never"]);
  expect(tableUnder("The methods").map(([method, probeClass]) => [method, probeClass])).toEqual(classes);
});
