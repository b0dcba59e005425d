import type { CircuitDiagram, Shape, ShapeGroup } from "ohmward/drawing";
import { expect, test } from "vitest";
import { demo } from "../demo.ts";
import { diagramOf } from "./all-items.ts";
import { bends, groundless, looseEnds, outlinesOverText, overlaps, runsOver, textOverlaps } from "./check-diagram.ts";

const pump = diagramOf(demo, "M2");

/** The same diagram with one group made different. */
function changed(id: string, change: (group: ShapeGroup) => ShapeGroup): CircuitDiagram {
  return { ...pump, groups: pump.groups.map((group) => (group.item?.id === id ? change(group) : group)) };
}

function shift(shape: Shape, y: number): Shape {
  return shape.kind === "text" ? { ...shape, at: { x: shape.at.x, y: shape.at.y + y } } : shape;
}

test("the checks of a diagram find what is planted", () => {
  const motor = pump.groups.find(({ item }) => item?.id === "M2.motor");
  const over = changed("W31", (group) => ({ ...group, blocks: motor?.blocks ?? [] }));
  expect(overlaps(over)).toEqual([expect.stringContaining("W31")]);
  const text = changed("W31", (group) => ({ ...group, shapes: group.shapes.map((shape) => shift(shape, -180)) }));
  expect([textOverlaps(text).length > 0, groundless(text).length > 0]).toEqual([true, true]);
  const bent = changed("W31", (group) => ({
    ...group,
    shapes: group.shapes.map((shape) => (shape.kind === "wire" ? { ...shape, to: { x: 1, y: 900 } } : shape)),
  }));
  expect([bends(bent), looseEnds(bent)]).toEqual([["wire W31"], ["wire W31"]]);
  const long = changed("W31", (group) => ({
    ...group,
    shapes: group.shapes.map((shape) =>
      shape.kind === "wire" ? { ...shape, from: { x: shape.from.x, y: 60 } } : shape,
    ),
  }));
  expect(runsOver(long).length).toBeGreaterThan(3);
  const cut = changed("A3", (group) => ({
    ...group,
    shapes: group.shapes.map((shape) =>
      shape.kind === "rect" ? { ...shape, box: { ...shape.box, y1: shape.box.y1 - 30 } } : shape,
    ),
  }));
  expect(outlinesOverText(cut).length).toBeGreaterThan(0);
});
