import { describe, expect, test } from "vitest";
import { runReading } from "ohmward/import-export";
import {
  ask,
  EXPORT_FORMATS,
  exportMachine,
  ExportReport,
  exportReport,
  importFile,
  machineOf,
  type Machine,
  type Question,
} from "ohmward/application";
import { demo } from "../demo-machine.ts";

function exported(format: (typeof EXPORT_FORMATS)[number]["id"], build?: string) {
  const made = exportMachine(demo, { format, ...(build === undefined ? {} : { build }) });
  if (!made.ok) throw new Error(made.error.text);
  return made.value;
}

function readBack(bytes: Uint8Array, fileName: string): Machine {
  const read = runReading(importFile(bytes, { fileName }));
  if (!read?.ok) throw new Error("not read");
  return machineOf(read.value.document, []);
}

describe("exportMachine()", () => {
  test.each(EXPORT_FORMATS)("writes $id with a plain name and the same bytes twice", ({ id, ending, mediaType }) => {
    const [first, second] = [exported(id), exported(id)];
    expect(first.bytes).toEqual(second.bytes);
    expect(first.fileName).toMatch(/^[a-z0-9-]+\.[a-z.]+$/u);
    expect([first.fileName.endsWith(ending), first.mediaType]).toEqual([true, mediaType]);
    const report = exportReport("m", first, "f");
    expect(ExportReport.parse(report)).toEqual(report);
  });

  // The conductors are all that a plain table holds; a whole set of tables holds the machine.
  const questions: readonly Question[] = [
    { kind: "path", from: "A1.X1:36", to: "B3.X:3", through: "conductors" },
    { kind: "path", from: "RT1.X:1", to: "RT2.X:1", through: "conductors" },
    { kind: "common", items: ["B3", "B4", "B6"].map((text) => ({ text, mark: "bad" })) },
    { kind: "effect", item: "XT1" },
    { kind: "circuit", point: "A1.X1:1" },
  ];

  test.each(["json", "table-set", "table-set-zip"] as const)("%s read back answers every question alike", (format) => {
    const back = readBack(exported(format).bytes, "a");
    for (const question of questions)
      expect(ask(back, { build: "base" }, question)).toEqual(ask(demo, { build: "base" }, question));
  });

  test.each(["wire-list-csv", "pin-table-csv", "xlsx"] as const)(
    "%s read back leads along the same conductors",
    (format) => {
      const file = exported(format);
      const back = readBack(file.bytes, "a");
      expect(file.problems.every((problem) => problem.code === "export-loses")).toBe(true);
      expect(file.problems.length).toBeGreaterThan(5);
      for (const question of questions.slice(0, 2)) {
        const ids = [demo, back].map((machine) => {
          const answer = ask(machine, { build: "base" }, question);
          return answer.kind === "path" ? [answer.path.map((item) => item.id), answer.mustPass.length] : answer.kind;
        });
        expect(ids[1]).toEqual(ids[0]);
        expect(Array.isArray(ids[0])).toBe(true);
      }
    },
  );

  test("holds one build where that is asked for, and says which it took or asks", () => {
    expect(exported("wire-list-csv", "tiller")).toMatchObject({ build: "tiller" });
    expect(exported("wire-list-csv").build).toBeUndefined();
    expect(exported("svg").assumptions).toHaveLength(1);
    expect(exported("json", "tiller").build).toBeUndefined();
    const wrong = exportMachine(demo, { format: "graphml", build: "winter" });
    expect(wrong).toMatchObject({ ok: false, error: { kind: "choose-build", asked: "winter" } });
  });

  test("lights wires on the drawing", () => {
    const made = exportMachine(demo, { format: "svg", build: "base", lit: ["W89"] });
    expect(made.ok && new TextDecoder().decode(made.value.bytes)).toContain("W89 WH/RD");
  });
});
