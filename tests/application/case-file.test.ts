import { expect, test } from "vitest";
import { caseFileName, writeCase } from "ohmward/application";

const at = "2031-02-01T08:00:00.123Z";
const facts = { program: "1.2.3", system: "a test", at, asked: ["circuit", "demo"] };

test("caseFileName() has no sign that a file system refuses", () => {
  expect(caseFileName(at)).toBe("ohmward-case-20310201-080000123.json");
});

test("writeCase() writes what is known, and no file that was not agreed to", () => {
  const fault = new RangeError("outer", { cause: new Error("inner", { cause: "deepest" }) });
  const written = JSON.parse(writeCase({ ...facts, fault })) as { error: { stack: string[] } };
  expect(written).toMatchObject({
    ...{ format: "ohmward-case", version: 1, ...facts, files: [] },
    error: { text: "RangeError: outer", cause: { text: "Error: inner", cause: { text: "deepest" } } },
  });
  expect(written.error.stack[0]).toBe("RangeError: outer");
});

test("writeCase() ends where a cause is a cause of itself", () => {
  const fault = new Error("round");
  fault.cause = fault;
  expect(writeCase({ ...facts, fault }).match(/Error: round"/gu)).toHaveLength(12);
});
