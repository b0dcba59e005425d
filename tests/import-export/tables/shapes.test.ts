import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { root } from "../../structure/support/project-files.ts";
import { shapeFaults, type ShapeExpectation } from "../support/shape-facts.ts";

// What each table must give was found by readers written apart from the project, or by hand (`more-tables`).
describe.each(["table-shapes", "more-tables"])("the tables of %s", (folder) => {
  const path = join("tests/fixtures", folder);
  const tables = readdirSync(join(root, path)).filter((name) => !name.endsWith(".expected.json"));
  test.each(tables)("%s gives what is expected", (name) => {
    const text = readFileSync(join(root, path, name.replace(/\.[a-z]+$/u, ".expected.json")), "utf8");
    expect(shapeFaults(join(path, name), JSON.parse(text) as ShapeExpectation)).toEqual([]);
  });
});
