import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { reach } from "../../../src/connectivity/graph/index.ts";
import { allSimplePaths, graphOf, passageWithout, smallQuestions } from "./small-graphs.ts";

describe("reach()", () => {
  const index = graphOf(6, [
    [0, 1],
    [1, 2],
    [0, 3],
    [3, 3],
    [4, 5],
  ]);

  test("gives the nodes nearest first", () => {
    expect([...reach(index, passageWithout(index), [2]).order]).toEqual([2, 1, 0, 3]);
  });

  test("starts at several nodes, each once", () => {
    expect([...reach(index, passageWithout(index), [5, 3, 5]).order]).toEqual([5, 3, 4, 0, 1, 2]);
  });

  test("stops at blocked nodes and edges, and reaches nothing from a blocked start", () => {
    const passage = passageWithout(index, { nodes: [1], edges: [4] });
    expect([...reach(index, passage, [0, 4]).order]).toEqual([0, 4, 3]);
    expect([...reach(index, passage, [1]).order]).toEqual([]);
  });

  test("refuses a start that the graph does not have", () => {
    expect(() => reach(index, passageWithout(index), [6])).toThrow(RangeError);
  });

  test("reaches exactly the nodes to which there is a simple path (law)", () => {
    fc.assert(
      fc.property(smallQuestions, (question) => {
        const { reached, order } = reach(question.index, question.passage, [question.pair.from]);
        for (const [node, flag] of reached.entries()) {
          const paths = allSimplePaths({ ...question, pair: { from: question.pair.from, to: node } });
          expect(flag === 1).toBe(paths.length > 0);
          expect(order.includes(node)).toBe(flag === 1);
        }
      }),
      { seed: 1959, numRuns: 200 },
    );
  });
});
