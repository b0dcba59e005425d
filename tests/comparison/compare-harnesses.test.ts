import { compareHarnesses } from "ohmward/comparison";
import { HarnessDocument } from "ohmward/harness-model";
import { expect, test } from "vitest";
import { generateHarness } from "../generate/generate-harness.ts";
import { comparePairs } from "./support/compare-pairs.ts";

test("forty pairs of machines with 1 to 40 known changes, ids kept, are found", () => {
  const { precision, recall, notes } = comparePairs({ from: 1, pairs: 20, renameAll: false });
  expect([precision >= 0.99, recall >= 0.99], notes).toEqual([true, true]);
});

test("the same with all ids new and all lists in another order", () => {
  const { precision, recall, partnered, notes } = comparePairs({ from: 501, pairs: 20, renameAll: true });
  expect([precision >= 0.95, recall >= 0.95, partnered >= 0.95], notes).toEqual([true, true, true]);
});

test("a machine compared with itself has no changes", () => {
  const document = HarnessDocument.parse(generateHarness({ seed: 3, wires: 300 }));
  const { changes, counts } = compareHarnesses({ document }, { document: structuredClone(document) });
  expect(changes).toEqual([]);
  expect(counts.matched).toBe(counts.before);
});
