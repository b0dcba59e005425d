import { describe, expect, test } from "vitest";
import { z } from "zod";
import { ask, generatedFiles, openMachine, reportOnFile, type Question } from "ohmward/application";
import { demo } from "./demo-machine.ts";

const schemas = new Map(
  generatedFiles().map(({ fileName, text }) => [
    fileName,
    z.fromJSONSchema(z.record(z.string(), z.json()).parse(JSON.parse(text))),
  ]),
);

function schemaOf(kind: string): z.ZodType {
  const schema = schemas.get(`answer-${kind}.schema.json`);
  if (!schema) throw new Error(`no schema for ${kind}`);
  return schema;
}

const questions: readonly (readonly [schema: string, question: Question, build: string])[] = [
  ["path", { kind: "path", from: "A3.F3", to: "A1.X2:27" }, "base"],
  ["no-path", { kind: "path", from: "SP11", to: "SP11" }, "base"],
  ["circuit", { kind: "circuit", point: "G2-" }, "base"],
  ["common", { kind: "common", items: ["B3", "B4"].map((text) => ({ text, mark: "bad" })) }, "base"],
  ["effect", { kind: "effect", item: "A3.F1" }, "base"],
  ["test-points", { kind: "test-points", item: "XT1" }, "base"],
  ["find", { kind: "find", text: "rail" }, "base"],
  ["expected", { kind: "expected", red: "B3.X:1", faults: ["open:W78"], meter: "dc-voltage" }, "base"],
  ["expected", { kind: "expected", red: "W29", meter: "dc-current" }, "base"],
  ["table", { kind: "table", item: "B3", faults: ["open:W78"] }, "base"],
  ["wrong-question", { kind: "expected", red: "G2+", faults: ["nonsense"] }, "base"],
  ["unresolved", { kind: "circuit", point: "Y9" }, "base"],
  ["choose", { kind: "circuit", point: "B3" }, "none"],
];

describe("generatedFiles() of the workbench", () => {
  test("are one schema a kind of answer, each with a line end and the same every time", () => {
    const files = generatedFiles();
    expect(files.map((file) => file.fileName)).toEqual([...new Set(files.map((file) => file.fileName))]);
    expect(files.every((file) => file.text.endsWith("}\n"))).toBe(true);
    expect(generatedFiles()).toEqual(files);
    expect(files).toHaveLength(29);
  });

  test.each(questions)(
    "answer-%s describes an answer, and not one with a key too many or too few",
    (name, question, build) => {
      const schema = schemaOf(name);
      const answer = ask(demo, { build }, question);
      expect(schema.safeParse(answer).error).toBeUndefined();
      expect(schema.safeParse({ ...answer, surplus: 1 }).success).toBe(false);
      expect(schema.safeParse({ ...answer, machine: undefined }).success).toBe(false);
    },
  );

  test("answer-file-report describes reports on files that open and that do not", () => {
    const opened = openMachine("{}");
    const reports = [reportOnFile("demo", demo), reportOnFile("a", opened.ok ? opened.value : opened.error)];
    expect(reports.map((report) => report.kind)).toEqual(["valid", "problems"]);
    for (const report of reports) expect(schemaOf("file-report").safeParse(report).error).toBeUndefined();
  });
});
