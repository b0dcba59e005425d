import { cavityContents } from "ohmward/drawing";
import { describe, expect, test } from "vitest";
import { demo, demoSide } from "./demo.ts";

describe("cavityContents()", () => {
  test("gives each half of an inline connector its own wires", () => {
    const [connector, machine] = demoSide("XC1", "m");
    const [, cab] = demoSide("XC1", "c");
    const of = (side: typeof machine): readonly string[] =>
      (cavityContents(demo, connector, side).get("2")?.wires ?? []).map((wire) => `${wire.id} ${wire.mark.letters}`);
    expect(of(machine)).toEqual(["W16 OG/BK"]);
    expect(of(cab)).toEqual(["W15 OG"]);
  });

  test("shows the half of a component with the wires that meet it", () => {
    const content = cavityContents(demo, ...demoSide("A1.X1", "device")).get("36");
    expect(content).toMatchObject({ isUsed: true, wires: [{ id: "W89", crossSectionMm2: 0.5 }] });
  });

  test("knows an empty cavity", () => {
    expect(cavityContents(demo, ...demoSide("XD1", "harness")).get("J")).toEqual({
      cavity: "J",
      wires: [],
      isUsed: false,
    });
  });
});
