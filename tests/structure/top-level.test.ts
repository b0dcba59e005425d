import { expect, test } from "vitest";
import { projectPaths } from "./support/project-files.ts";

const allowed: readonly string[] = [
  ".ci",
  ".editorconfig",
  ".gitignore",
  "DEVELOPERS.md",
  "LICENSE",
  "README.md",
  "data-schemas",
  "demo-harness",
  "docs",
  "package-lock.json",
  "package.json",
  "src",
  "tests",
  "tsconfig.json",
];

/** Entries of the top folder that have no place there. */
function strangers(paths: readonly string[]): readonly string[] {
  const entries = new Set(paths.map((path) => path.split("/")[0] ?? ""));
  return [...entries].filter((entry) => !allowed.includes(entry));
}

test("strangers() finds a planted file and a planted folder", () => {
  expect(strangers(["src/a.ts", "vite.config.ts", "scripts/make.mjs", ".npmrc"])).toEqual([
    "vite.config.ts",
    "scripts",
    ".npmrc",
  ]);
});

test("the top folder holds only what belongs there", () => {
  expect(projectPaths().length).toBeGreaterThan(0);
  expect(strangers(projectPaths())).toEqual([]);
});
