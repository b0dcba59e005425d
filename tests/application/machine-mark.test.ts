import { describe, expect, test } from "vitest";
import { encodeUtf8, pinTableTemplate, runReading, writeHarnessJson } from "ohmward/import-export";
import { importFile, machineMark, openMachine } from "ohmward/application";
import { demoText } from "../demo-harness/open-demo.ts";

function markOf(text: string): string {
  const opened = openMachine(text);
  if (!opened.ok) throw new Error(opened.error[0]?.message);
  return machineMark(opened.value.document);
}

/** The demo machine as plain data with its members in reverse order, changed by the way. */
function turned(change: Record<string, unknown> = {}): string {
  const document = JSON.parse(demoText("firnlark-45.ohm.json")) as { about: object };
  const about = { ...document.about, ...change };
  return JSON.stringify(Object.fromEntries(Object.entries({ ...document, about }).reverse()));
}

describe("machineMark()", () => {
  test("is twelve hexadecimal digits, the same for the same data in any order, another for other data", () => {
    const mark = markOf(demoText("firnlark-45.ohm.json"));
    expect(mark).toMatch(/^[0-9a-f]{12}$/u);
    expect(markOf(turned())).toBe(mark);
    expect(markOf(turned({ revision: "other" }))).not.toBe(mark);
  });

  test.each([
    ["wires.csv", pinTableTemplate("wire")],
    ["pins.csv", pinTableTemplate("pin")],
    ["excerpt.kbl", demoText("firnlark-excerpt.kbl")],
    ["excerpt.vec", demoText("firnlark-excerpt.vec")],
  ])("of %s is the same once it was written as a harness document and opened again", (fileName, text) => {
    const made = runReading(importFile(encodeUtf8(text), { fileName }));
    if (!made?.ok) throw new Error(`${fileName} was not read`);
    const { document } = made.value;
    expect(markOf(writeHarnessJson(document))).toBe(machineMark(document));
  });
});
