import fc from "fast-check";
import { connectorFace, type ConnectorFace } from "ohmward/drawing";
import type { Connector } from "ohmward/harness-model";
import { describe, expect, test } from "vitest";
import { demo, demoSide } from "./demo.ts";

/** Where each cavity is, by id. */
function places(face: ConnectorFace): ReadonlyMap<string, readonly [number, number]> {
  return new Map(face.cavities.map(({ id, x, y }) => [id, [x, y]]));
}

function everySide(): readonly (readonly [Connector, Connector["sides"][number]])[] {
  return demo.document.connectors.flatMap((connector) => connector.sides.map((side) => [connector, side] as const));
}

const opposite = { left: "right", right: "left", top: "top", bottom: "bottom" } as const;

describe("connectorFace()", () => {
  test.each(everySide().map(([connector, side]) => [`${connector.id}.${side.id}`, connector, side] as const))(
    "shows the mating side of %s as the mirror image of its wire side, left and right changed over",
    (_name, connector, side) => {
      const wire = connectorFace(connector, side, "wire-side");
      const mating = connectorFace(connector, side, "mating-side");
      expect([mating.width, mating.height]).toEqual([wire.width, wire.height]);
      for (const [id, [x, y]] of places(wire)) {
        expect(places(mating).get(id)).toEqual([expect.closeTo(wire.width - x, 1), expect.closeTo(y, 1)]);
      }
      expect(mating.latch?.side).toBe(wire.latch && opposite[wire.latch.side]);
      expect(mating.key?.side).toBe(wire.key && opposite[wire.key.side]);
    },
  );

  test("shows the mating sides of two halves as each other's mirror image, since they look at each other", () => {
    const machine = connectorFace(...demoSide("XC1", "m"), "mating-side");
    const cab = connectorFace(...demoSide("XC1", "c"), "mating-side");
    for (const [id, [x, y]] of places(machine)) {
      expect(places(cab).get(id)).toEqual([expect.closeTo(machine.width - x, 1), y]);
    }
  });

  test("keeps the view the document gives as it is: A1.X1 runs row by row from the top left", () => {
    const { cavities, viewName, side } = connectorFace(...demoSide("A1.X1", "harness"), "wire-side");
    const inReadingOrder = cavities.toSorted((a, b) => a.y - b.y || a.x - b.x).map((cavity) => cavity.id);
    expect(inReadingOrder).toEqual(cavities.map((_, at) => String(at + 1)));
    expect([viewName, side]).toEqual(["Wire-entry view", "A1.X1.harness"]);
  });

  test("keeps cavities apart and inside the housing, whatever the grid", () => {
    const [connector, side] = demoSide("XC1", "m");
    const coordinate = fc.integer({ min: -40, max: 40 });
    const grid = fc.uniqueArray(fc.tuple(coordinate, coordinate), { minLength: 1, maxLength: 30, selector: String });
    fc.assert(
      fc.property(grid, fc.constantFrom("wire-side", "mating-side"), (points, view) => {
        const cavities = points.map(([x, y], at) => ({ id: `c${at}`, x: x / 4, y: y / 4 }));
        const face = connectorFace({ ...connector, cavities }, side, view);
        const { body } = face;
        for (const a of face.cavities) {
          expect(a.x - a.size / 2).toBeGreaterThanOrEqual(body.x);
          expect(a.x + a.size / 2).toBeLessThanOrEqual(body.x + body.width + 0.01);
          expect(a.y - a.size / 2).toBeGreaterThanOrEqual(body.y);
          expect(a.y + a.size / 2).toBeLessThanOrEqual(body.y + body.height + 0.01);
          for (const b of face.cavities) {
            if (a !== b) expect(Math.hypot(a.x - b.x, a.y - b.y)).toBeGreaterThan(a.size);
          }
        }
      }),
      { seed: 20, numRuns: 60 },
    );
  });

  test("leaves out the cavities a half does not have", () => {
    const [connector, side] = demoSide("XC1", "m");
    const { cavities } = connectorFace(connector, { ...side, cavities: ["1", "3"] }, "wire-side");
    expect(cavities.map((cavity) => cavity.id)).toEqual(["1", "3"]);
  });
});
