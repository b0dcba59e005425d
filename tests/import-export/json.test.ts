import { describe, expect, test } from "vitest";
import { openHarness } from "ohmward/harness-model";
import { harnessJsonBytes, writeHarnessJson } from "ohmward/import-export";
import { openDemo } from "../demo-harness/open-demo.ts";
import { harnessText } from "../generate/harness-text.ts";
import { errorCodes, problemsOf, readGood } from "./support/read-file.ts";

const demo = openDemo();

/** The same data with the keys of every record the other way round. */
function turned(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(turned);
  if (typeof value !== "object" || value === null) return value;
  return Object.fromEntries(
    Object.entries(value)
      .reverse()
      .map(([key, inner]) => [key, turned(inner)]),
  );
}

describe("writeHarnessJson()", () => {
  test("gives the same document again, and then the same bytes", () => {
    const bytes = harnessJsonBytes(demo);
    const read = readGood(bytes, "machine.ohm.json");
    expect(read.document).toEqual(demo);
    expect(harnessJsonBytes(read.document)).toEqual(bytes);
  });

  test("does not depend on the order of keys in the file", () => {
    const opened = openHarness(JSON.stringify(turned(demo)));
    if (!opened.ok) throw new Error("The turned document has problems");
    expect(writeHarnessJson(opened.value.document)).toBe(writeHarnessJson(demo));
  });

  test("writes one record a line", () => {
    const lines = writeHarnessJson(demo).split("\n");
    for (const wire of demo.wires)
      expect(lines.filter((line) => line.includes(`{"id": "${wire.id}", "ends"`))).toHaveLength(1);
    for (const component of demo.components) {
      for (const element of component.elements)
        expect(lines.filter((line) => line.includes(`"id": "${element.id}"`)).length).toBeGreaterThan(0);
    }
    expect(lines.at(-1)).toBe("");
  });

  test("gives generated machines again", () => {
    const opened = openHarness(harnessText({ seed: 7, wires: 400 }));
    if (!opened.ok) throw new Error("The generated machine has problems");
    const text = writeHarnessJson(opened.value.document);
    expect(readGood(text, "generated.json").document).toEqual(opened.value.document);
  });
});

test.each([
  ["no harness", "{}", ["wrong-format"]],
  ["cut off", '{"format": "ohmward-harness",', ["not-json"]],
  ["of a later version", '{"format": "ohmward-harness", "version": 99}', ["newer-version"]],
])("a document that is %s ends in the problems of the model", (_name, text, codes) => {
  const problems = problemsOf(text, "machine.json");
  expect(errorCodes(problems)).toEqual(codes);
  expect(problems[0]?.at.file).toBe("machine.json");
});
