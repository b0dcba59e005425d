import type { Item } from "ohmward/connectivity";
import { expect, test } from "vitest";
import { stepInDiagram } from "../../../src/ui/state/diagram-steps.ts";
import { diagramOf } from "../../drawing/circuit-diagram/all-items.ts";
import { demo } from "../../drawing/demo.ts";

const { list } = diagramOf(demo, "M2");

/** Where keys lead from an item, one after another. */
function walk(from: Item | undefined, keys: readonly string[]): readonly string[] {
  let at = from;
  return keys.map((key) => {
    at = stepInDiagram(list, at, key) ?? at;
    return at?.id ?? "";
  });
}

test("arrow keys go down a column, over its bar into the next one, and to the side", () => {
  const down = walk(undefined, ["ArrowDown", "ArrowDown", "ArrowDown", "ArrowDown"]);
  expect(down).toEqual(["A3.S1", "A3#bus", "A3.F10", "A3.K4"]);
  expect(walk({ type: "element", id: "A3.F10" }, ["ArrowRight", "ArrowLeft", "ArrowUp"])).toEqual([
    "A3.F6",
    "A3.F10",
    "A3#bus",
  ]);
});

test("the ends of the diagram and other keys lead nowhere", () => {
  expect(stepInDiagram(list, { type: "stud", id: "G2-" }, "ArrowDown")).toBeUndefined();
  expect(stepInDiagram(list, undefined, "a")).toBeUndefined();
});
