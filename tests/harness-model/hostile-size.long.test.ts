import { describe, expect, test } from "vitest";
import { openHarness } from "ohmward/harness-model";
import { generateHarness } from "../generate/generate-harness.ts";
import { changed, codesOf, problemsOf } from "./hostile-support.ts";
import { at, baseDocument } from "./support.ts";

/** Time a text of very many things may take, in ms: generous, so that only growth beyond reason fails. */
const LARGE = 120_000;

describe("openHarness() on very many things", () => {
  test("200,000 wires, all right, unless the text is longer than the limit", { timeout: LARGE }, () => {
    const text = JSON.stringify(generateHarness({ seed: 45, wires: 200_000 }));
    const opened = openHarness(text, { mostCharacters: 2 ** 28 });
    expect(opened.ok && opened.value.document.wires.length).toBe(200_000);
  });

  test("200,000 wires of the wrong shape", { timeout: LARGE }, () => {
    const wires = Array.from({ length: 200_000 }, (_, wire) => ({
      id: wire,
      ends: "x",
      colour: 1,
      crossSectionMm2: "1",
      extra: null,
    }));
    expect(problemsOf(JSON.stringify({ ...baseDocument(), wires }))).toHaveLength(201);
  });

  test("200,000 wires that are wrong in every other way", { timeout: LARGE }, () => {
    const wire = {
      id: "W1",
      ends: ["A:1", "B:2"],
      colour: "B",
      crossSectionMm2: -1,
      lengthMm: 0,
      net: "no",
      when: "(",
      route: ["x"],
    };
    const wires = Array.from({ length: 200_000 }, () => wire);
    const problems = problemsOf(JSON.stringify({ ...baseDocument(), wires }));
    expect(problems.length).toBeGreaterThan(200);
    expect(new Set(problems.map((problem) => problem.code)).size).toBeGreaterThanOrEqual(6);
  });

  test("200,000 wires in one cavity", { timeout: LARGE }, () => {
    const wires = Array.from({ length: 200_000 }, (_, wire) => ({ id: `W${wire}`, ends: ["A3.X1:1", "XC1m:1"] }));
    expect(codesOf(JSON.stringify({ ...baseDocument(), wires }))).toEqual(["splice-too-few-wires"]);
  });

  test("more builds than the form allows", () => {
    const text = changed((document) => {
      document.builds = Array.from({ length: 501 }, (_, build) => ({ id: `B${build}`, label: "", options: [] }));
    });
    expect(codesOf(text)).toEqual(["shape"]);
  });

  test("500 builds of 5,000 wires", { timeout: LARGE }, () => {
    const text = changed((document) => {
      document.builds = Array.from({ length: 500 }, (_, build) => ({ id: `B${build}`, label: "", options: [] }));
      for (let wire = 0; wire < 5000; wire++)
        document.wires.push({ id: `N${wire}`, ends: ["G1+", "SP1"], when: `!(OPT-COLD & !OPT-COLD)` });
    });
    expect(codesOf(text)).toEqual([]);
  });

  test("300 connectors with halves that list 2,000 cavities each", { timeout: LARGE }, () => {
    const cavities = Array.from({ length: 2000 }, (_, cavity) => ({ id: `${cavity}`, x: 0, y: 0 }));
    const ids = cavities.map((cavity) => cavity.id);
    const text = changed((document) => {
      const inline = at(document.connectors, 1);
      for (let more = 0; more < 300; more++) {
        document.connectors.push({
          ...inline,
          id: `N${more}`,
          cavities,
          sides: ["m", "c"].map((id) => ({ id, cavities: ids })),
        });
      }
    });
    expect(codesOf(text)).toEqual([]);
  });
});
