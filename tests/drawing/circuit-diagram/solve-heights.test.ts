import { expect, test } from "vitest";
import { solveHeights } from "../../../src/drawing/circuit-diagram/solve-heights.ts";

test("solveHeights() divides a voltage as a chain of resistors does", () => {
  const links = [
    { a: 0, b: 1, length: 1 },
    { a: 1, b: 2, length: 3 },
  ];
  expect(solveHeights(3, links, new Map([[0, 1], [2, 0]]))).toEqual([1, 0.75, 0]); // prettier-ignore
});

/** Source: the Wheatstone bridge (C. Wheatstone, 1843): balanced, no current flows through its middle. */
test("solveHeights() puts both corners of a balanced bridge at one height", () => {
  const side = (a: number, b: number, length: number) => ({ a, b, length });
  const links = [side(0, 1, 1), side(0, 2, 2), side(1, 3, 2), side(2, 3, 4), side(1, 2, 5)];
  const heights = solveHeights(4, links, new Map([[0, 1], [3, 0]])); // prettier-ignore
  expect(heights[1]).toBeCloseTo(2 / 3, 12);
  expect(heights[2]).toBeCloseTo(2 / 3, 12);
});

test("solveHeights() leaves what no given height reaches in the middle", () => {
  expect(solveHeights(3, [{ a: 1, b: 2, length: 1 }], new Map([[0, 1]]))).toEqual([1, 0.5, 0.5]);
});
