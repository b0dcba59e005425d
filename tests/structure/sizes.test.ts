import { describe, expect, test } from "vitest";
import { projectFiles, type ProjectFile } from "./support/project-files.ts";

/** Most lines of a file, by kind. How long a function may be is told in .ci/eslint.config.js. */
const budgets: readonly (readonly [RegExp, number])[] = [
  [/\.svelte$/u, 250],
  [/\.(?:ts|js|mjs|css)$/u, 500],
];

/** Files that are over their budget for a reason, with the lines they may have. A file that has come back under it is taken out. */
const exceptions: ReadonlyMap<string, number> = new Map<string, number>();

function linesOf(text: string): number {
  return text === "" ? 0 : text.split("\n").length - (text.endsWith("\n") ? 1 : 0);
}

function budgetOf(path: string): number {
  return budgets.find(([pattern]) => pattern.test(path))?.[1] ?? Infinity;
}

/** What is too long, and which exceptions are no longer needed. */
function oversized(files: readonly ProjectFile[], allowed: ReadonlyMap<string, number>): readonly string[] {
  const tooLong = files
    .filter(({ path, text }) => linesOf(text) > (allowed.get(path) ?? budgetOf(path)))
    .map(({ path, text }) => `${path} has ${linesOf(text)} lines, may have ${allowed.get(path) ?? budgetOf(path)}`);
  const lines = new Map(files.map(({ path, text }) => [path, linesOf(text)]));
  const needless = [...allowed.keys()]
    .filter((path) => (lines.get(path) ?? 0) <= budgetOf(path))
    .map((path) => `${path} needs no exception`);
  return [...tooLong, ...needless];
}

/** Names that are neither kebab-case nor, for a component, PascalCase. */
function misnamed(paths: readonly string[]): readonly string[] {
  const kebab = /^[a-z0-9]+(?:-[a-z0-9]+)*(?:\.[a-z0-9]+(?:-[a-z0-9]+)*)+$/u;
  const pascal = /^(?:[A-Z][a-z0-9]*)+\.svelte$/u;
  return paths.filter((path) => !(path.endsWith(".svelte") ? pascal : kebab).test(path.split("/").at(-1) ?? ""));
}

describe("the size check", () => {
  const file = (path: string, lines: number): ProjectFile => ({ path, text: "x\n".repeat(lines) });

  test("finds planted files that are too long", () => {
    const files = [file("src/a/b.ts", 501), file("src/a/c.ts", 500), file("src/ui/D.svelte", 251)];
    expect(oversized(files, new Map())).toEqual([
      "src/a/b.ts has 501 lines, may have 500",
      "src/ui/D.svelte has 251 lines, may have 250",
    ]);
  });

  test("holds an exception to its figure and finds one that is not needed", () => {
    const allowed = new Map([
      ["src/a.ts", 600],
      ["src/b.ts", 600],
      ["src/gone.ts", 600],
      ["src/c.ts", 600],
    ]);
    expect(oversized([file("src/a.ts", 600), file("src/b.ts", 601), file("src/c.ts", 10)], allowed)).toEqual([
      "src/b.ts has 601 lines, may have 600",
      "src/gone.ts needs no exception",
      "src/c.ts needs no exception",
    ]);
  });

  test("finds planted names", () => {
    const good = ["src/a/find-net.ts", "src/ui/PathStrip.svelte", "tests/a/find-net.test.ts", "src/ui/view.svelte.ts"];
    expect(misnamed([...good, "src/a/findNet.ts", "src/a/Find.ts", "src/ui/path-strip.svelte"])).toEqual([
      "src/a/findNet.ts",
      "src/a/Find.ts",
      "src/ui/path-strip.svelte",
    ]);
  });
});

describe("the files of the house", () => {
  const files = projectFiles(/^(?:src|tests|\.ci)\/.*\.(?:ts|js|mjs|svelte|css)$/u);

  test("are within their budgets", () => {
    expect(files.length).toBeGreaterThan(0);
    expect(oversized(files, exceptions)).toEqual([]);
  });

  test("are named as files are named here", () => {
    expect(misnamed(files.map((file) => file.path))).toEqual([]);
  });
});
