import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  betweenNodes,
  findBiconnectedComponents,
  shortestSimplePaths,
  type Path,
} from "../../../src/connectivity/graph/index.ts";
import { allSimplePaths, graphOf, passageWithout, reversed, smallQuestions, type EdgeEnds } from "./small-graphs.ts";
import { openPassage } from "./open-passage.ts";

/** By number of edges, then by edge numbers. */
function inOrder(paths: readonly Path[]): Path[] {
  return [...paths].sort((a, b) => {
    if (a.edges.length !== b.edges.length) return a.edges.length - b.edges.length;
    const place = a.edges.findIndex((edge, step) => edge !== b.edges[step]);
    return place < 0 ? 0 : (a.edges[place] ?? 0) - (b.edges[place] ?? 0);
  });
}

// Yen's own example network has lengths; this is the complete graph of 5 nodes, in which the number of simple paths between
// two nodes is 1 + 3 + 3 * 2 + 3 * 2 * 1 = 16 (one for each ordered choice of the nodes between).
const complete5: readonly EdgeEnds[] = [0, 1, 2, 3, 4].flatMap((a) =>
  [0, 1, 2, 3, 4].filter((b) => b > a).map((b): EdgeEnds => [a, b]),
);

/** Squares side by side, each with a way above and below: 2 to the power of `count` paths. */
function squares(count: number): readonly EdgeEnds[] {
  return Array.from({ length: count }, (_, place): readonly EdgeEnds[] => [
    [3 * place, 3 * place + 1],
    [3 * place + 1, 3 * place + 3],
    [3 * place, 3 * place + 2],
    [3 * place + 2, 3 * place + 3],
  ]).flat();
}

describe("shortestSimplePaths()", () => {
  test("finds the 16 simple paths between two nodes of the complete graph of 5", () => {
    const index = graphOf(5, complete5);
    const answer = shortestSimplePaths(index, openPassage(index), { from: 0, to: 4, limit: 100 });
    expect(answer.paths.map((path) => path.edges.length)).toEqual([1, 2, 2, 2, 3, 3, 3, 3, 3, 3, 4, 4, 4, 4, 4, 4]);
    expect(answer.complete).toBe(true);
  });

  test("tells parallel wires apart and ignores a self loop", () => {
    const index = graphOf(3, [
      [0, 1],
      [1, 2],
      [0, 1],
      [1, 1],
      [2, 1],
    ]);
    const answer = shortestSimplePaths(index, openPassage(index), { from: 0, to: 2, limit: 10 });
    expect(answer.paths.map((path) => path.edges)).toEqual([
      [0, 1],
      [0, 4],
      [2, 1],
      [2, 4],
    ]);
    expect(answer.complete).toBe(true);
  });

  test("is complete at a limit of exactly the number of paths, and not below", () => {
    const index = graphOf(2, [
      [0, 1],
      [0, 1],
      [0, 1],
    ]);
    const withLimit = (limit: number): unknown => {
      const answer = shortestSimplePaths(index, openPassage(index), { from: 0, to: 1, limit });
      return [answer.paths.length, answer.complete];
    };
    expect([1, 2, 3, 4].map(withLimit)).toEqual([
      [1, false],
      [2, false],
      [3, true],
      [3, true],
    ]);
  });

  test("stops at the limit where there are too many paths to count", () => {
    const index = graphOf(301, squares(100));
    const answer = shortestSimplePaths(index, openPassage(index), { from: 0, to: 300, limit: 20 });
    expect(answer.paths).toHaveLength(20);
    expect(new Set(answer.paths.map((path) => path.edges.join()))).toHaveProperty("size", 20);
    expect(answer.complete).toBe(false);
  });

  test.each([0, 3, 10, 40, 200])("keeps to %i expansions, says so, and lists only proved paths", (maxExpansions) => {
    const index = graphOf(13, squares(4));
    const question = { from: 0, to: 12, limit: 100 };
    const whole = shortestSimplePaths(index, openPassage(index), question);
    const bounded = shortestSimplePaths(index, openPassage(index), { ...question, maxExpansions });
    expect(whole).toMatchObject({ complete: true });
    expect(whole.paths).toHaveLength(16);
    expect(whole.expansions).toBeGreaterThan(200);
    expect(bounded).toMatchObject({ complete: false, expansions: maxExpansions });
    expect(bounded.paths).toEqual(whole.paths.slice(0, bounded.paths.length));
  });

  test("answers the same node, pieces apart and blocked ends", () => {
    const index = graphOf(3, [[0, 1]]);
    const ask = (from: number, to: number, blocked: readonly number[] = []): unknown => {
      const { paths, complete } = shortestSimplePaths(index, passageWithout(index, { nodes: blocked }), {
        from,
        to,
        limit: 3,
      });
      return { paths, complete };
    };
    expect(ask(2, 2)).toEqual({ paths: [{ nodes: [2], edges: [] }], complete: true });
    expect(ask(0, 2)).toEqual({ paths: [], complete: true });
    expect(ask(0, 1, [1])).toEqual({ paths: [], complete: true });
    expect(ask(0, 0, [0])).toEqual({ paths: [], complete: true });
  });

  test("takes only the edges allowed", () => {
    const index = graphOf(3, [
      [0, 1],
      [1, 2],
      [0, 2],
    ]);
    const answer = shortestSimplePaths(index, openPassage(index), { from: 0, to: 2, limit: 5, edges: [1, 0, 1] });
    expect(answer.paths).toEqual([{ nodes: [0, 1, 2], edges: [0, 1] }]);
    expect(answer.complete).toBe(true);
  });

  test("keeps the order of edge numbers whatever order the allowed edges are given in", () => {
    const index = graphOf(2, [
      [0, 1],
      [0, 1],
      [0, 1],
    ]);
    const answer = shortestSimplePaths(index, openPassage(index), { from: 0, to: 1, limit: 5, edges: [2, 0, 1] });
    expect(answer.paths.map((path) => path.edges)).toEqual([[0], [1], [2]]);
  });

  test.each([0, -1, 1.5, Number.NaN])("refuses a limit of %d", (limit) => {
    const index = graphOf(2, [[0, 1]]);
    expect(() => shortestSimplePaths(index, openPassage(index), { from: 0, to: 1, limit })).toThrow(RangeError);
  });

  test("lists exactly the simple paths found by trying all, in order (law)", () => {
    fc.assert(
      fc.property(smallQuestions, (question) => {
        const expected = inOrder(allSimplePaths(question));
        const answer = shortestSimplePaths(question.index, question.passage, {
          ...question.pair,
          limit: expected.length + 1,
        });
        expect(answer.paths).toEqual(expected);
        expect(answer.complete).toBe(true);
      }),
      { seed: 1971, numRuns: 1000 },
    );
  });

  test("begins alike for every limit and is complete only if no path is left (law)", () => {
    fc.assert(
      fc.property(smallQuestions, fc.integer({ min: 1, max: 6 }), (question, limit) => {
        const expected = inOrder(allSimplePaths(question));
        const answer = shortestSimplePaths(question.index, question.passage, { ...question.pair, limit });
        expect(answer.paths).toEqual(expected.slice(0, limit));
        expect(answer.complete).toBe(expected.length <= limit);
      }),
      { seed: 1972, numRuns: 500 },
    );
  });

  test("loses nothing within the part between, and gives as many paths the other way round (law)", () => {
    fc.assert(
      fc.property(smallQuestions, ({ index, passage, pair }) => {
        const between = betweenNodes(findBiconnectedComponents(index, passage), pair);
        if (between.kind === "apart") return;
        const everywhere = shortestSimplePaths(index, passage, { ...pair, limit: 8 });
        const within = shortestSimplePaths(index, passage, { ...pair, limit: 8, edges: between.edges });
        expect(within.paths).toEqual(everywhere.paths);
        const back = shortestSimplePaths(index, passage, { ...reversed(pair), limit: 8 });
        expect(back.paths.map((path) => path.edges.length)).toEqual(within.paths.map((path) => path.edges.length));
      }),
      { seed: 712, numRuns: 500 },
    );
  });
});
