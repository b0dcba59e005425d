import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { betweenNodes, findBiconnectedComponents, type Between } from "../../../src/connectivity/graph/index.ts";
import {
  allSimplePaths,
  graphOf,
  passageWithout,
  reversed,
  smallQuestions,
  sorted,
  type BlockedParts,
  type EdgeEnds,
} from "./small-graphs.ts";

/** An answer as plain lists: sets sorted, must-pass lists in path order. */
function plain(answer: Between): unknown {
  if (answer.kind === "apart") return [answer.fromComponent, answer.toComponent];
  const { nodes, edges, mustPassNodes, mustPassEdges } = answer;
  expect(sorted(nodes)).toHaveLength(nodes.length);
  expect(sorted(edges)).toHaveLength(edges.length);
  return { nodes: sorted(nodes), edges: sorted(edges), passNodes: [...mustPassNodes], passEdges: [...mustPassEdges] };
}

interface Case {
  readonly name: string;
  readonly nodes: number;
  readonly edges: readonly EdgeEnds[];
  readonly blocked?: BlockedParts;
  readonly pair: readonly [number, number];
  readonly answer: unknown;
}

// Chain 0-1, ring 1-2-4-3, chain 4-5, and a stub 2-6 that leads nowhere.
const ringOnChain: readonly EdgeEnds[] = [
  [0, 1],
  [1, 2],
  [1, 3],
  [2, 4],
  [3, 4],
  [4, 5],
  [2, 6],
];

const cases: readonly Case[] = [
  {
    name: "the same node",
    nodes: 2,
    edges: [
      [0, 1],
      [0, 0],
    ],
    pair: [0, 0],
    answer: { nodes: [0], edges: [], passNodes: [0], passEdges: [] },
  },
  {
    name: "a bridge",
    nodes: 2,
    edges: [[0, 1]],
    pair: [1, 0],
    answer: { nodes: [0, 1], edges: [0], passNodes: [1, 0], passEdges: [0] },
  },
  {
    name: "two parallel wires, neither of which every path takes",
    nodes: 2,
    edges: [
      [0, 1],
      [0, 1],
    ],
    pair: [0, 1],
    answer: { nodes: [0, 1], edges: [0, 1], passNodes: [0, 1], passEdges: [] },
  },
  {
    name: "a ring on a chain, without the stub",
    nodes: 7,
    edges: ringOnChain,
    pair: [0, 5],
    answer: { nodes: [0, 1, 2, 3, 4, 5], edges: [0, 1, 2, 3, 4, 5], passNodes: [0, 1, 4, 5], passEdges: [0, 5] },
  },
  {
    name: "a ring with one side blocked: a chain",
    nodes: 7,
    edges: ringOnChain,
    blocked: { edges: [2] },
    pair: [5, 0],
    answer: { nodes: [0, 1, 2, 4, 5], edges: [0, 1, 3, 5], passNodes: [5, 4, 2, 1, 0], passEdges: [5, 3, 1, 0] },
  },
  {
    name: "two nodes of one ring: both ways round",
    nodes: 7,
    edges: ringOnChain,
    pair: [2, 3],
    answer: { nodes: [1, 2, 3, 4], edges: [1, 2, 3, 4], passNodes: [2, 3], passEdges: [] },
  },
  {
    name: "a self loop on the way: on no path",
    nodes: 3,
    edges: [
      [0, 1],
      [1, 1],
      [1, 2],
    ],
    pair: [0, 2],
    answer: { nodes: [0, 1, 2], edges: [0, 2], passNodes: [0, 1, 2], passEdges: [0, 2] },
  },
  {
    name: "a bow-tie from wing to wing",
    nodes: 5,
    edges: [
      [0, 1],
      [1, 2],
      [2, 0],
      [2, 3],
      [3, 4],
      [4, 2],
    ],
    pair: [0, 4],
    answer: { nodes: [0, 1, 2, 3, 4], edges: [0, 1, 2, 3, 4, 5], passNodes: [0, 2, 4], passEdges: [] },
  },
  {
    name: "pieces apart",
    nodes: 4,
    edges: [
      [0, 1],
      [2, 3],
    ],
    pair: [1, 2],
    answer: [0, 1],
  },
  { name: "a blocked end", nodes: 2, edges: [[0, 1]], blocked: { nodes: [1] }, pair: [0, 1], answer: [0, -1] },
  { name: "the same blocked node", nodes: 1, edges: [], blocked: { nodes: [0] }, pair: [0, 0], answer: [-1, -1] },
];

describe("betweenNodes()", () => {
  test.each(cases)("answers for $name", ({ nodes, edges, blocked, pair: [from, to], answer }) => {
    const index = graphOf(nodes, edges);
    expect(plain(betweenNodes(findBiconnectedComponents(index, passageWithout(index, blocked)), { from, to }))).toEqual(
      answer,
    );
  });

  test("refuses a node that the graph does not have", () => {
    const index = graphOf(2, [[0, 1]]);
    const blocks = findBiconnectedComponents(index, passageWithout(index));
    expect(() => betweenNodes(blocks, { from: 0, to: 2 })).toThrow(
      new RangeError("Cannot ask about node 2: wanted a whole number from 0 to 1"),
    );
  });

  test("gives what is on any and on every simple path, found by trying all paths (law)", () => {
    let found = 0;
    fc.assert(
      fc.property(smallQuestions, (question) => {
        const { index, passage, pair } = question;
        const answer = betweenNodes(findBiconnectedComponents(index, passage), pair);
        const paths = allSimplePaths(question);
        const [first] = paths;
        if (first === undefined) {
          expect(answer.kind).toBe("apart");
          return;
        }
        found++;
        expect(plain(answer)).toEqual({
          nodes: sorted(paths.flatMap((path) => path.nodes)),
          edges: sorted(paths.flatMap((path) => path.edges)),
          passNodes: first.nodes.filter((node) => paths.every((path) => path.nodes.includes(node))),
          passEdges: first.edges.filter((edge) => paths.every((path) => path.edges.includes(edge))),
        });
      }),
      { seed: 1966, numRuns: 1500 },
    );
    // A law that only ever met graphs without a path would hold for any code.
    expect(found).toBeGreaterThan(500);
  });

  test("names the blocks between the nodes that every path passes (law)", () => {
    fc.assert(
      fc.property(smallQuestions, ({ index, passage, pair }) => {
        const blocks = findBiconnectedComponents(index, passage);
        const answer = betweenNodes(blocks, pair);
        if (answer.kind === "apart") return;
        expect(answer.blockPath).toHaveLength(answer.mustPassNodes.length - 1);
        for (const [place, block] of answer.blockPath.entries()) {
          const members = blocks.nodesByBlock.slice(blocks.nodeOffsets[block], blocks.nodeOffsets[block + 1]);
          const nodes = [blocks.topNodeOfBlock[block], ...members];
          expect(nodes).toContain(answer.mustPassNodes[place]);
          expect(nodes).toContain(answer.mustPassNodes[place + 1]);
        }
      }),
      { seed: 1927, numRuns: 500 },
    );
  });

  test("gives the same part and the reversed order when asked the other way round (law)", () => {
    fc.assert(
      fc.property(smallQuestions, ({ index, passage, pair }) => {
        const blocks = findBiconnectedComponents(index, passage);
        const there = betweenNodes(blocks, pair);
        const back = betweenNodes(blocks, reversed(pair));
        expect(back.kind).toBe(there.kind);
        if (there.kind === "apart" || back.kind === "apart") return;
        expect(sorted(back.nodes)).toEqual(sorted(there.nodes));
        expect(sorted(back.edges)).toEqual(sorted(there.edges));
        expect([...back.mustPassNodes].reverse()).toEqual([...there.mustPassNodes]);
        expect([...back.mustPassEdges].reverse()).toEqual([...there.mustPassEdges]);
        expect([...back.blockPath].reverse()).toEqual([...there.blockPath]);
      }),
      { seed: 45, numRuns: 500 },
    );
  });
});
