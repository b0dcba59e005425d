import { readdirSync, readFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { expect, test } from "vitest";

// A judge that shares code with what it judges agrees with its errors: of all files here the adapter alone may know the project.

const FOLDER = "tests/judge";
const ADAPTER = "planner.ts";
const OUTSIDE: ReadonlySet<string> = new Set(["vitest", "node:child_process", "node:fs", "node:os", "node:path"]);

/** What a file imports from outside of the judge. */
function importsFromOutside(name: string, text: string): readonly string[] {
  const named = [...text.matchAll(/\bfrom\s+"([^"]+)"/gu)].map(([, from]) => from ?? "");
  return named.filter((from) => {
    if (!from.startsWith(".")) return !OUTSIDE.has(from);
    return !join(FOLDER, dirname(name), from).startsWith(`${FOLDER}/`);
  });
}

test.each([
  ["player.ts", "../../src/library/index.ts"],
  ["player.ts", "ohmward/diagnosis"],
  ["player.ts", "../simulate/support/kept-rows.ts"],
  ["truth/machine.ts", "../../simulate/support/kept-rows.ts"],
])("importsFromOutside() finds in %s the import of %s", (name, from) => {
  expect(importsFromOutside(name, `import {\n  a,\n  type B,\n} from "${from}";`)).toEqual([from]);
});

test("importsFromOutside() leaves alone what belongs to the judge and to Node", () => {
  const text = 'import { a } from "../cases.ts";\nimport { b } from "node:fs";\nexport type { c } from "./fault.ts";';
  expect(importsFromOutside("truth/machine.ts", text)).toEqual([]);
});

const files = readdirSync(FOLDER, { recursive: true, encoding: "utf8" }).filter((name) => name.endsWith(".ts"));

// This file itself holds imports as examples.
test.each(files.filter((name) => name !== ADAPTER && name !== "apart.test.ts"))(
  "%s imports nothing of the project",
  (name) => {
    expect(importsFromOutside(name, readFileSync(join(FOLDER, name), "utf8"))).toEqual([]);
  },
);

test("the adapter imports the public doors only", () => {
  expect(importsFromOutside(ADAPTER, readFileSync(join(FOLDER, ADAPTER), "utf8"))).toEqual([
    "../../src/library/diagnosis.ts",
    "../../src/library/index.ts",
  ]);
});
