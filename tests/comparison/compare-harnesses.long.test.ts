import { expect, test } from "vitest";
import { comparePairs } from "./support/compare-pairs.ts";

test("500 pairs of machines with 1 to 40 known changes, ids kept", { timeout: 1_800_000 }, () => {
  const { precision, recall, notes } = comparePairs({ from: 1, pairs: 500, renameAll: false });
  expect([precision >= 0.99, recall >= 0.99], notes).toEqual([true, true]);
});

test("500 pairs with all ids new and all lists in another order", { timeout: 1_800_000 }, () => {
  const { precision, recall, partnered, notes } = comparePairs({ from: 501, pairs: 500, renameAll: true });
  expect([precision >= 0.95, recall >= 0.95, partnered >= 0.95], notes).toEqual([true, true, true]);
});

test("100 pairs with all ids new and without labels", { timeout: 1_800_000 }, () => {
  const { precision, recall, partnered, notes } = comparePairs({
    from: 1001,
    pairs: 100,
    renameAll: true,
    isNameless: true,
  });
  expect([precision >= 0.95, recall >= 0.95, partnered >= 0.95], notes).toEqual([true, true, true]);
});
