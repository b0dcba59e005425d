import { describe, expect, test } from "vitest";
import { fitBuild, openHarness } from "ohmward/harness-model";
import { generateHarness } from "./generate-harness.ts";
import { harnessText } from "./harness-text.ts";

describe("generateHarness()", () => {
  const sizes = [20, 21, 22, 23, 25, 30, 60, 100, 161, 250, 333, 1000, 2000, 7777];

  test.each(sizes)("makes exactly %d wires that open without any problem, whatever the seed", (wires) => {
    for (let seed = 1; seed <= (wires > 500 ? 3 : 12); seed++) {
      const opened = openHarness(harnessText({ seed, wires }));
      expect(opened.ok ? opened.value.warnings : opened.error).toEqual([]);
      if (!opened.ok) return;
      expect(opened.value.document.wires).toHaveLength(wires);
      const [base, full] = ["base", "full"].map((build) => fitBuild(opened.value.document, build));
      expect(base?.fitted.wires.size).toBeLessThanOrEqual(wires);
      expect(full?.index.nodeCount).toBeGreaterThan(wires);
    }
  });

  test("gives the same document for the same seed and another for another", () => {
    expect(harnessText({ seed: 7, wires: 400 })).toBe(harnessText({ seed: 7, wires: 400 }));
    expect(harnessText({ seed: 7, wires: 400 })).not.toBe(harnessText({ seed: 8, wires: 400 }));
  });

  test("makes every kind of thing the model knows of a larger machine", () => {
    const document = generateHarness({ seed: 1, wires: 2000 });
    expect(document.wires.filter((wire) => wire.when !== undefined).length).toBeGreaterThan(10);
    expect(document.connectors.some((connector) => connector.sides.some((side) => side.id === "j"))).toBe(true);
    expect(new Set(document.components.map((component) => component.kind)).size).toBeGreaterThanOrEqual(8);
    expect(document.splices.length).toBeGreaterThan(100);
    expect(Math.max(...document.connectors.map((connector) => connector.cavities.length))).toBeGreaterThanOrEqual(64);
  });

  test("refuses numbers of wires it cannot make", () => {
    expect(() => generateHarness({ seed: 1, wires: 19 })).toThrow(RangeError);
    expect(() => generateHarness({ seed: 1, wires: 20.5 })).toThrow(RangeError);
  });
});
