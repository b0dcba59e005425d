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
  ["between", { kind: "between", from: "A3.F3", to: "A1.X2:27" }, "base"],
  ["no-path", { kind: "between", from: "SP11", to: "SP11" }, "base"],
  ["trace", { kind: "trace", point: "G2-" }, "base"],
  ["shared", { kind: "shared", items: ["B3", "B4"].map((text) => ({ text, mark: "bad" })) }, "base"],
  ["without", { kind: "without", item: "A3.F1" }, "base"],
  ["probe", { kind: "probe", item: "XT1" }, "base"],
  ["find", { kind: "find", text: "rail" }, "base"],
  ["expect", { kind: "expect", red: "B3.X:1", faults: ["open:W78"], meter: "volts" }, "base"],
  ["expect", { kind: "expect", red: "W29", meter: "amps" }, "base"],
  ["table", { kind: "table", item: "B3", faults: ["open:W78"] }, "base"],
  ["wrong-question", { kind: "expect", red: "G2+", faults: ["nonsense"] }, "base"],
  ["unresolved", { kind: "trace", point: "Y9" }, "base"],
  ["choose", { kind: "trace", point: "B3" }, "none"],
];

describe("generatedFiles() of the workbench", () => {
  test("are one schema a kind of answer, each with a line end and the same every time", () => {
    const files = generatedFiles();
    expect(files.map((file) => file.fileName)).toEqual([...new Set(files.map((file) => file.fileName))]);
    expect(files.every((file) => file.text.endsWith("}\n"))).toBe(true);
    expect(generatedFiles()).toEqual(files);
    expect(files).toHaveLength(27);
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
