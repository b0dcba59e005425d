import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { shortestPath, shortestSimplePaths } from "../../../src/connectivity/graph/index.ts";
import { graphOf, passageWithout, smallQuestions } from "./small-graphs.ts";

describe("shortestPath()", () => {
  test("takes the fewest edges", () => {
    const index = graphOf(5, [
      [0, 1],
      [1, 2],
      [2, 4],
      [0, 3],
      [3, 4],
    ]);
    const path = shortestPath(index, passageWithout(index), { from: 0, to: 4 });
    expect(path).toEqual({ kind: "found", nodes: [0, 3, 4], edges: [3, 4] });
  });

  test("takes the lowest edge number at each step among paths of equal length, seen from the start", () => {
    const index = graphOf(4, [
      [0, 2],
      [1, 3],
      [0, 1],
      [2, 3],
      [2, 3],
    ]);
    expect(shortestPath(index, passageWithout(index), { from: 0, to: 3 })).toMatchObject({ edges: [0, 3] });
    expect(shortestPath(index, passageWithout(index), { from: 3, to: 0 })).toMatchObject({ edges: [1, 2] });
  });

  test("finds a node itself without a step, and no way where there is none or an end is blocked", () => {
    const index = graphOf(3, [
      [0, 1],
      [0, 0],
    ]);
    expect(shortestPath(index, passageWithout(index), { from: 0, to: 0 })).toEqual({
      kind: "found",
      nodes: [0],
      edges: [],
    });
    expect(shortestPath(index, passageWithout(index), { from: 0, to: 2 })).toEqual({ kind: "apart" });
    for (const node of [0, 1]) {
      expect(shortestPath(index, passageWithout(index, { nodes: [node] }), { from: 0, to: 1 })).toEqual({
        kind: "apart",
      });
    }
    expect(shortestPath(index, passageWithout(index, { edges: [0] }), { from: 0, to: 1 })).toEqual({ kind: "apart" });
  });

  test("refuses a node that the graph does not have", () => {
    const index = graphOf(2, [[0, 1]]);
    for (const to of [-1, 2, 0.5, Number.NaN]) {
      expect(() => shortestPath(index, passageWithout(index), { from: 0, to })).toThrow(RangeError);
    }
  });

  test("is the first of shortestSimplePaths() (law)", () => {
    fc.assert(
      fc.property(smallQuestions, ({ index, passage, pair }) => {
        const [first] = shortestSimplePaths(index, passage, { ...pair, limit: 1 }).paths;
        expect(shortestPath(index, passage, pair)).toEqual(
          first === undefined ? { kind: "apart" } : { kind: "found", ...first },
        );
      }),
      { seed: 1957, numRuns: 500 },
    );
  });
});
