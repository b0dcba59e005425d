import { expect, test } from "vitest";
import { RowSystem } from "../../../src/drawing/circuit-diagram/row-system.ts";

test("a system of rows keeps every distance, with heights as small as can be", () => {
  const system = new RowSystem(4);
  system.add(0, 1, 10);
  system.add(1, 3, 5);
  system.add(0, 2, 30);
  system.add(2, 3, 1);
  system.add(0, 2, 20);
  expect(system.highest()).toEqual([0, 10, 30, 31]);
  expect([system.reaches(0, 3), system.reaches(3, 0), system.reaches(1, 1)]).toEqual([true, false, true]);
  expect([system.least(3, [0, 10, 30, 99]), system.most(1, [0, 0, 30, 99])]).toEqual([31, 94]);
});

test("a circle of rules has no order", () => {
  const system = new RowSystem(2);
  system.add(0, 1, 1);
  system.add(1, 0, 1);
  expect(system.order()).toBeUndefined();
});
