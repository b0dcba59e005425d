import { describe, expect, test } from "vitest";
import { findCircles } from "./support/find-circles.ts";
import { projectFiles } from "./support/project-files.ts";

const file = (name: string, ...targets: readonly string[]): { readonly path: string; readonly text: string } => ({
  path: `src/base/${name}.ts`,
  text: targets.map((target) => `import type { T } from "./${target}.ts";`).join("\n"),
});

describe("findCircles() on planted files", () => {
  test("finds files that import one another, over any number of steps, and a file that imports itself", () => {
    const files = [file("a", "b"), file("b", "c"), file("c", "a", "d"), file("d"), file("e", "e"), file("f", "a")];
    expect(findCircles(files)).toEqual([["src/base/a.ts", "src/base/b.ts", "src/base/c.ts"], ["src/base/e.ts"]]);
  });

  test("finds none where two ways lead to the same file", () => {
    expect(findCircles([file("a", "b", "c"), file("b", "d"), file("c", "d"), file("d")])).toEqual([]);
  });
});

test("no files of the house import one another in a circle", () => {
  const files = projectFiles(/^src\/.*\.(?:ts|svelte)$/u);
  expect(files.length).toBeGreaterThan(0);
  expect(findCircles(files)).toEqual([]);
});
