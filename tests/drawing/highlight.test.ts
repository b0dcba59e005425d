import { highlight } from "ohmward/drawing";
import { expect, test } from "vitest";
import { demo } from "./demo.ts";

test("highlight() turns ids of an answer into wires and things of the drawing", () => {
  const { wires, items, bundles } = highlight(demo, [
    "A1.X1:36",
    "W89",
    "XC1m:3",
    "SP11",
    "G2+",
    "A3.F3",
    "SG01",
    "nothing",
  ]);
  expect(wires).toEqual(["W89"]);
  expect([...bundles]).toEqual(["SG01"]);
  expect([...items].sort()).toEqual(["connector A1.X1", "connector B3.X", "connector XC1", "splice SP11", "stud G2+"]);
});

test("highlight() takes a component for its connectors and studs", () => {
  expect([...highlight(demo, ["A3"]).items].sort()).toEqual(["connector A3.X1", "connector A3.X2", "stud A3.S1"]);
});
