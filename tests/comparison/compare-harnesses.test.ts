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

test("a resistor has no direction, a diode has one", () => {
  const document = HarnessDocument.parse(generateHarness({ seed: 3, wires: 60 }));
  const after = structuredClone(document);
  const element = (
    kind: "resistor" | "diode",
    isTurned: boolean,
  ): HarnessDocument["components"][number]["elements"][number] => {
    const between: [string, string] = isTurned ? ["G1-", "G1+"] : ["G1+", "G1-"];
    const shared = { id: `turned-${kind}`, between };
    return kind === "diode"
      ? { ...shared, kind, forwardVolt: 0.7, resistanceOhm: 1 }
      : { ...shared, kind, resistanceOhm: 1 };
  };
  for (const kind of ["resistor", "diode"] as const) {
    document.components[0]?.elements.push(element(kind, false));
    after.components[0]?.elements.push(element(kind, true));
  }
  const { changes } = compareHarnesses({ document }, { document: after });
  expect(changes.map(({ what, after: id }) => [what, id?.split(".")[1]])).toEqual([["moved", "turned-diode"]]);
});
