import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { openHarness, problemTexts, type OpenLimits, type Problem } from "ohmward/harness-model";

const folder = join(import.meta.dirname, "../fixtures/problems");
const names = readdirSync(folder).sort();

interface Expected {
  readonly options?: OpenLimits;
  readonly problems: readonly Pick<Problem, "code" | "at" | "message">[];
}

function readExpected(name: string): Expected {
  return JSON.parse(readFileSync(join(folder, name, "expected.json"), "utf8")) as Expected;
}

function openFixture(name: string, options?: OpenLimits): readonly Problem[] {
  const input = readdirSync(join(folder, name)).find((file) => file.startsWith("input.")) ?? "input.ohm.json";
  const opened = openHarness(readFileSync(join(folder, name, input), "utf8"), options);
  return opened.ok ? opened.value.warnings : opened.error;
}

describe("openHarness() on documents with problems", () => {
  test("the base document of the fixtures has none", () => {
    const opened = openHarness(readFileSync(join(folder, "../base.ohm.json"), "utf8"));
    expect(opened.ok ? opened.value.warnings : opened.error).toEqual([]);
  });

  test.each(names)("tests/fixtures/problems/%s is answered with exactly the problems expected", (name) => {
    const { options, problems } = readExpected(name);
    const found = openFixture(name, options);
    expect(found.map(({ code, at, message }) => ({ code, at, message }))).toEqual(problems);
    for (const each of found) {
      expect(each.severity).toBe(problemTexts[each.code].severity);
      expect(each.hint).toBe(problemTexts[each.code].hint);
    }
  });

  test("a document opens exactly if it has no error", () => {
    for (const name of names) {
      const { options, problems } = readExpected(name);
      const input = readdirSync(join(folder, name)).find((file) => file.startsWith("input.")) ?? "";
      const opened = openHarness(readFileSync(join(folder, name, input), "utf8"), options);
      expect([name, opened.ok]).toEqual([
        name,
        problems.every(({ code }) => problemTexts[code].severity === "warning"),
      ]);
    }
  });

  test("every code of the catalogue has a fixture of its name, which expects it", () => {
    for (const code of Object.keys(problemTexts)) {
      expect(names).toContain(code);
      expect(readExpected(code).problems.map((each) => each.code)).toContain(code);
    }
  });

  test("every fixture named for no code says what it adds by a code at the start of its name, or holds many", () => {
    for (const name of names) {
      const codes = new Set(readExpected(name).problems.map((each) => each.code));
      expect(codes.size > 5 || [...codes].some((code) => name === code || name.startsWith(`${code}-`))).toBe(true);
    }
  });
});
