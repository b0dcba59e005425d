import { cavityContents } from "ohmward/drawing";
import { describe, expect, test } from "vitest";
import { demo, demoHalf } from "./demo.ts";

describe("cavityContents()", () => {
  test("gives each half of an inline connector its own wires", () => {
    const [connector, machine] = demoHalf("XC1", "m");
    const [, cab] = demoHalf("XC1", "c");
    const of = (half: typeof machine): readonly string[] =>
      (cavityContents(demo, connector, half).get("2")?.wires ?? []).map((wire) => `${wire.id} ${wire.mark.letters}`);
    expect(of(machine)).toEqual(["W16 OG/BK"]);
    expect(of(cab)).toEqual(["W15 OG"]);
  });

  test("shows the half of a component with the wires that meet it", () => {
    const content = cavityContents(demo, ...demoHalf("A1.X1", "device")).get("36");
    expect(content).toMatchObject({ isUsed: true, wires: [{ id: "W89", crossSectionMm2: 0.5 }] });
  });

  test("knows an empty cavity", () => {
    expect(cavityContents(demo, ...demoHalf("XD1", "harness")).get("J")).toEqual({
      cavity: "J",
      wires: [],
      isUsed: false,
    });
  });
});
