import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { GraphIndex } from "ohmward/harness-model";
import { findBiconnectedComponents, type BiconnectedComponents } from "../../../src/connectivity/graph/index.ts";
import {
  allSimplePaths,
  graphOf,
  passageWithout,
  smallQuestions,
  sorted,
  type BlockedParts,
  type EdgeEnds,
} from "./small-graphs.ts";
import { openPassage } from "./open-passage.ts";

/** The edges of each block, blocks in order of their lowest edge. */
function edgeSets(blocks: BiconnectedComponents): number[][] {
  return Array.from({ length: blocks.blockCount }, (_, block) => [
    ...blocks.edgesByBlock.slice(blocks.edgeOffsets[block], blocks.edgeOffsets[block + 1]),
  ]).sort((a, b) => (a[0] ?? -1) - (b[0] ?? -1));
}

interface Case {
  readonly name: string;
  readonly nodes: number;
  readonly edges: readonly EdgeEnds[];
  readonly blocked?: BlockedParts;
  readonly blocks: readonly (readonly number[])[];
}

const ladder: readonly EdgeEnds[] = [
  [0, 1],
  [1, 2],
  [3, 4],
  [4, 5],
  [0, 3],
  [1, 4],
  [2, 5],
];
const bowTie: readonly EdgeEnds[] = [
  [0, 1],
  [1, 2],
  [2, 0],
  [2, 3],
  [3, 4],
  [4, 2],
];

const cases: readonly Case[] = [
  { name: "nothing", nodes: 0, edges: [], blocks: [] },
  { name: "a node alone", nodes: 1, edges: [], blocks: [] },
  { name: "a bridge", nodes: 2, edges: [[0, 1]], blocks: [[0]] },
  {
    name: "a chain: each wire alone",
    nodes: 3,
    edges: [
      [0, 1],
      [1, 2],
    ],
    blocks: [[0], [1]],
  },
  {
    name: "a triangle",
    nodes: 3,
    edges: [
      [0, 1],
      [1, 2],
      [2, 0],
    ],
    blocks: [[0, 1, 2]],
  },
  {
    name: "two parallel wires",
    nodes: 2,
    edges: [
      [0, 1],
      [1, 0],
    ],
    blocks: [[0, 1]],
  },
  {
    name: "three parallel wires behind a bridge",
    nodes: 3,
    edges: [
      [0, 1],
      [1, 2],
      [1, 2],
      [2, 1],
    ],
    blocks: [[0], [1, 2, 3]],
  },
  {
    name: "a self loop: in no block",
    nodes: 2,
    edges: [
      [0, 0],
      [0, 1],
      [1, 1],
    ],
    blocks: [[1]],
  },
  {
    name: "a bow-tie: two blocks",
    nodes: 5,
    edges: bowTie,
    blocks: [
      [0, 1, 2],
      [3, 4, 5],
    ],
  },
  { name: "a ladder: one block", nodes: 6, edges: ladder, blocks: [[0, 1, 2, 3, 4, 5, 6]] },
  {
    name: "a ladder with a blocked rail",
    nodes: 6,
    edges: ladder,
    blocked: { edges: [0] },
    blocks: [[1, 3, 5, 6], [2], [4]],
  },
  { name: "a bow-tie with its waist blocked", nodes: 5, edges: bowTie, blocked: { nodes: [2] }, blocks: [[0], [4]] },
  {
    name: "pieces apart",
    nodes: 5,
    edges: [
      [3, 4],
      [0, 1],
      [4, 3],
    ],
    blocks: [[0, 2], [1]],
  },
];

describe("findBlocks()", () => {
  test.each(cases)("finds the blocks of $name", ({ nodes, edges, blocked, blocks }) => {
    const index = graphOf(nodes, edges);
    expect(edgeSets(findBiconnectedComponents(index, passageWithout(index, blocked)))).toEqual(blocks);
  });

  test("hangs every block under its top node, one level below", () => {
    const blocks = findBiconnectedComponents(...wholeGraph(5, bowTie));
    expect([...blocks.levelOfNode]).toEqual([0, 1, 1, 2, 2]);
    for (let block = 0; block < blocks.blockCount; block++) {
      const top = blocks.topNodeOfBlock[block] ?? -1;
      for (const node of blocks.nodesByBlock.slice(blocks.nodeOffsets[block], blocks.nodeOffsets[block + 1])) {
        expect(blocks.parentBlockOfNode[node]).toBe(block);
        expect(blocks.levelOfNode[node]).toBe((blocks.levelOfNode[top] ?? -1) + 1);
      }
    }
  });

  test("numbers components and leaves blocked nodes in none", () => {
    const index = graphOf(4, [
      [0, 1],
      [1, 2],
      [2, 3],
    ]);
    const blocks = findBiconnectedComponents(index, passageWithout(index, { nodes: [1] }));
    expect([...blocks.componentOfNode]).toEqual([0, -1, 1, 1]);
    expect(blocks.componentCount).toBe(2);
  });

  test("does not mind a chain of 300,000 wires", () => {
    const count = 300_000;
    const chain = Array.from({ length: count }, (_, place): EdgeEnds => [place, place + 1]);
    const blocks = findBiconnectedComponents(...wholeGraph(count + 1, chain));
    expect(blocks.blockCount).toBe(count);
    expect(blocks.levelOfNode[count]).toBe(count);
  });

  test("puts two edges into one block exactly if a closed way that meets no node twice takes both (law)", () => {
    fc.assert(
      fc.property(smallQuestions, ({ index, passage }) => {
        const { blockOfEdge } = findBiconnectedComponents(index, passage);
        for (let first = 0; first < index.edgeCount; first++) {
          const together = edgesOnRingsWith(first, { index, passage });
          for (let second = 0; second < index.edgeCount; second++) {
            if (first === second) continue;
            const sameBlock = blockOfEdge[first] !== -1 && blockOfEdge[first] === blockOfEdge[second];
            expect(sameBlock, `edges ${first} and ${second}`).toBe(together.has(second));
          }
        }
      }),
      { seed: 1973, numRuns: 300 },
    );
  });

  test("stores each passable edge in one block and each node under one block at most (law)", () => {
    fc.assert(
      fc.property(smallQuestions, ({ index, passage }) => {
        const blocks = findBiconnectedComponents(index, passage);
        const inBlocks = edgeSets(blocks).flat();
        const expected = [...index.from.keys()].filter((edge) => blocks.blockOfEdge[edge] !== -1);
        expect(sorted(inBlocks)).toEqual(expected);
        expect(inBlocks).toHaveLength(expected.length);
        expect(sorted(blocks.nodesByBlock)).toHaveLength(blocks.nodesByBlock.length);
      }),
      { seed: 447, numRuns: 300 },
    );
  });
});

function wholeGraph(nodeCount: number, edges: readonly EdgeEnds[]): [GraphIndex, ReturnType<typeof openPassage>] {
  const index = graphOf(nodeCount, edges);
  return [index, openPassage(index)];
}

/** All edges on a simple path between the ends of an edge that does without the edge: they close a ring with it. */
function edgesOnRingsWith(
  edge: number,
  graph: Pick<Parameters<typeof allSimplePaths>[0], "index" | "passage">,
): Set<number> {
  const { index, passage } = graph;
  const pair = { from: index.from[edge] ?? -1, to: index.to[edge] ?? -1 };
  if (pair.from === pair.to || passage.edges[edge] === 0) return new Set();
  const edges = passage.edges.slice();
  edges[edge] = 0;
  return new Set(allSimplePaths({ index, passage: { ...passage, edges }, pair }).flatMap((path) => path.edges));
}
