import { describe, expect, test } from "vitest";
import { findDeadLinks } from "./support/find-dead-links.ts";
import { projectFiles, projectPaths } from "./support/project-files.ts";

describe("findDeadLinks() on planted pages", () => {
  const target =
    "# One page\n\n## Reading a `.ohm.json` file, twice\n\n## Same\n\n## Same\n\n```md\n## Not a heading\n```\n";
  const targets = {
    paths: new Set(["README.md", "docs/a.md", "docs/deep/b.md", "docs/face.svg"]),
    pages: new Map([["docs/a.md", target]]),
  };
  const check = (text: string): readonly string[] =>
    findDeadLinks({ path: "docs/a.md", text: `${target}${text}` }, targets);

  test.each([
    "[x](gone.md)",
    "[x](../docs)[y](../attic/)",
    "[x](../readme.md)",
    "![x](faces.svg 'title')",
    "[x]: ./deep/c.md",
    '<img src="gone.svg">',
    "[x](#two-pages)",
    "[x](a.md#not-a-heading)",
    "[x](#same-2)",
    "[x](face.svg#part)",
  ])("finds %s", (text) => {
    expect(check(text)).toHaveLength(1);
  });

  test.each([
    "[x](deep/b.md) [y](../README.md) [z](./deep/)",
    "[x](<face.svg>)",
    "[x](https://example.org/gone.md) [y](mailto:a@example.org)",
    "[x](#one-page) [y](a.md#same) [z](#same-1)",
    "[x](#reading-a-ohmjson-file-twice)",
    "`[x](gone.md)`",
    "```md\n[x](gone.md)\n```",
  ])("is content with %s", (text) => {
    expect(check(text)).toEqual([]);
  });
});

describe("the pages of the project", () => {
  const pages = projectFiles(/^(?:README\.md|DEVELOPERS\.md|docs\/.*\.md)$/u);

  test("begin with README.md and DEVELOPERS.md", () => {
    expect(pages.map((page) => page.path)).toEqual(expect.arrayContaining(["README.md", "DEVELOPERS.md"]));
  });

  test("hold no dead link", () => {
    const targets = {
      paths: new Set(projectPaths()),
      pages: new Map(projectFiles(/\.md$/u).map(({ path, text }) => [path, text])),
    };
    expect(pages.flatMap((page) => findDeadLinks(page, targets))).toEqual([]);
  });
});
