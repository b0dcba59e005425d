import { expect, test } from "vitest";
import { importProblemTexts, type ImportProblemCode } from "ohmward/import-export";
import { problemTexts } from "ohmward/harness-model";
import { draftProblemTexts, fileProblemTexts, xmlProblemTexts } from "../../src/import-export/import-problem-texts.ts";
import { tableProblemTexts } from "../../src/import-export/table-problem-texts.ts";

test("no code stands for two problems, here or in the model", () => {
  const parts = [fileProblemTexts, draftProblemTexts, tableProblemTexts, xmlProblemTexts].flatMap((texts) =>
    Object.keys(texts),
  );
  const all = [...parts, ...Object.keys(problemTexts)];
  expect(all.filter((code, at) => all.indexOf(code) !== at)).toEqual([]);
  expect(Object.keys(importProblemTexts).sort()).toEqual(parts.sort());
});

test("every problem has a hint that is a sentence of its own", () => {
  const codes = Object.keys(importProblemTexts) as ImportProblemCode[];
  const hints = codes.map((code) => importProblemTexts[code].hint);
  expect(hints.filter((hint) => hint.length < 15 || hint.endsWith("."))).toEqual([]);
});
