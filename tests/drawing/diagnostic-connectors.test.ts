import { cavityContents, connectorFace } from "ohmward/drawing";
import { fitBuild, openHarness, type Harness } from "ohmward/harness-model";
import { describe, expect, test } from "vitest";
import { demo, demoSide } from "./demo.ts";
import { sixteenPinDocument } from "./sixteen-pin.ts";

/** What the wire in each used cavity is for: its net's kind, and its name. */
function uses(harness: Harness, connectorId: string): ReadonlyMap<string, string> {
  const connector = harness.document.connectors.find((each) => each.id === connectorId);
  const side = connector?.sides[0];
  if (!connector || !side) throw new Error(`There is no connector ${connectorId}`);
  const contents = cavityContents(harness, connector, side);
  return new Map(
    [...contents].flatMap(([id, { wires }]) =>
      wires.map(({ net = "" }): [string, string] => [id, `${harness.nets.get(net)?.kind ?? "?"} ${net}`]),
    ),
  );
}

describe("the nine-pin diagnostic connector", () => {
  // Source: SAE J1939-13: nine cavities A to J without I; A battery negative, B battery positive, C CAN high, D CAN low.
  test("has the letters of SAE J1939-13 and their use", () => {
    const [connector] = demoSide("XD1", "harness");
    expect(connector.cavities.map((cavity) => cavity.id)).toEqual([..."ABCDEFGHJ"]);
    expect([...uses(demo, "XD1")]).toEqual([
      ["A", expect.stringMatching(/^ground /u)],
      ["B", expect.stringMatching(/^supply .*BATT/u)],
      ["C", expect.stringMatching(/^data-bus .*H/u)],
      ["D", expect.stringMatching(/^data-bus .*L/u)],
    ]);
  });

  test("is drawn round, its letters the other way round when seen from the mating side", () => {
    const [connector, side] = demoSide("XD1", "harness");
    const turn = (view: "wire-side" | "mating-side"): number => {
      const face = connectorFace(connector, side, view);
      expect(face.shape).toBe("round");
      const [a, b, c] = ["A", "B", "C"].map((id) => face.cavities.find((cavity) => cavity.id === id));
      if (!a || !b || !c) throw new Error("A letter is missing");
      return Math.sign((b.x - a.x) * (c.y - b.y) - (b.y - a.y) * (c.x - b.x));
    };
    expect(turn("wire-side")).toBe(-turn("mating-side"));
  });
});

describe("the 16-pin diagnostic connector", () => {
  const opened = openHarness(JSON.stringify(sixteenPinDocument()));
  if (!opened.ok) throw new Error(opened.error.map((problem) => problem.message).join("\n"));
  const harness = fitBuild(opened.value.document, "base");
  if (!harness) throw new Error("The document has no build");

  // Source: ISO 15031-3 / SAE J1962: 4 chassis ground, 5 signal ground, 6 CAN high, 7 K line, 14 CAN low, 15 L line, 16 battery positive.
  test("has the cavities of ISO 15031-3 in their use", () => {
    expect([...uses(harness, "XD")]).toEqual([
      ["4", "ground chassis ground"],
      ["5", "ground signal ground"],
      ["6", "data-bus CAN H"],
      ["7", "data-bus K line"],
      ["14", "data-bus CAN L"],
      ["15", "data-bus L line"],
      ["16", "battery-power battery +"],
    ]);
  });

  // Source: ISO 15031-3 / SAE J1962: two rows of eight; seen from the mating side of the vehicle half 1 to 8 stand over 9 to 16, from the left.
  test("counts from the left from the mating side, from the right from the wire side", () => {
    const connector = harness.document.connectors[0];
    const side = connector?.sides[0];
    if (!connector || !side) throw new Error("The connector is missing");
    const rows = (view: "wire-side" | "mating-side"): readonly string[] =>
      connectorFace(connector, side, view)
        .cavities.toSorted((a, b) => a.y - b.y || a.x - b.x)
        .map((cavity) => cavity.id);
    const [upper, lower] = [
      Array.from({ length: 8 }, (_, at) => `${at + 1}`),
      Array.from({ length: 8 }, (_, at) => `${at + 9}`),
    ];
    expect(rows("mating-side")).toEqual([...upper, ...lower]);
    expect(rows("wire-side")).toEqual([...upper.toReversed(), ...lower.toReversed()]);
  });
});
