import { describe, expect, test } from "vitest";
import { documentPath, problem, problemTexts } from "ohmward/harness-model";

test.each([
  [[], ""],
  [["wires", 3, "ends", 0], "wires[3].ends[0]"],
  [["about", "notes", 12], "about.notes[12]"],
  [["$schema"], "$schema"],
])("documentPath() joins %j to %j", (steps, path) => {
  expect(documentPath(steps)).toBe(path);
});

test("problem() fills the sentence of its code and leaves markup as it is", () => {
  const made = problem("unknown-colour", { path: "wires[0].colour", id: "W1" }, { colour: "<b>" });
  expect(made).toEqual({
    code: "unknown-colour",
    severity: "error",
    at: { path: "wires[0].colour", id: "W1" },
    message: '"<b>" is not a colour code (IEC 60757)',
    hint: problemTexts["unknown-colour"].hint,
  });
});

describe("problemTexts", () => {
  test("has a hint for each code, written as a sentence without a full stop", () => {
    for (const { hint } of Object.values(problemTexts)) expect(hint).toMatch(/^[A-Z].*[^.\s]$/);
  });
});
