import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { firstBlocked, shortestPath, type CutAt } from "../../../src/connectivity/graph/index.ts";
import {
  allSimplePaths,
  graphOf,
  passageWithout,
  smallQuestions,
  type BlockedParts,
  type EdgeEnds,
} from "./small-graphs.ts";
import { openPassage } from "./open-passage.ts";

interface Case {
  readonly name: string;
  readonly nodes: number;
  readonly edges: readonly EdgeEnds[];
  readonly blocked?: BlockedParts;
  readonly blockedInWider?: BlockedParts;
  readonly pair: readonly [number, number];
  readonly answer: Partial<CutAt> & Record<string, unknown>;
}

const chain: readonly EdgeEnds[] = [
  [0, 1],
  [1, 2],
  [2, 3],
];

const cases: readonly Case[] = [
  { name: "nothing blocked", nodes: 4, edges: chain, pair: [0, 3], answer: { kind: "joined" } },
  {
    name: "one open switch",
    nodes: 4,
    edges: chain,
    blocked: { edges: [1] },
    pair: [0, 3],
    answer: { kind: "blocked", what: "edge", number: 1, nodes: [0, 1, 2, 3], edges: [0, 1, 2] },
  },
  {
    name: "the first of two, seen from the start",
    nodes: 4,
    edges: chain,
    blocked: { edges: [0, 2] },
    pair: [3, 0],
    answer: { kind: "blocked", what: "edge", number: 2, blockedEdges: [2, 0], blockedNodes: [] },
  },
  {
    name: "an edge before the blocked node it leads to",
    nodes: 4,
    edges: chain,
    blocked: { edges: [1], nodes: [2] },
    pair: [0, 3],
    answer: { kind: "blocked", what: "edge", number: 1, blockedEdges: [1], blockedNodes: [2] },
  },
  {
    name: "a node before the blocked edge behind it",
    nodes: 4,
    edges: chain,
    blocked: { edges: [2], nodes: [1] },
    pair: [0, 3],
    answer: { kind: "blocked", what: "node", number: 1 },
  },
  {
    name: "a blocked start",
    nodes: 4,
    edges: chain,
    blocked: { edges: [0], nodes: [0] },
    pair: [0, 3],
    answer: { kind: "blocked", what: "node", number: 0 },
  },
  {
    name: "the same blocked node",
    nodes: 1,
    edges: [],
    blocked: { nodes: [0] },
    pair: [0, 0],
    answer: { kind: "blocked", what: "node", number: 0, nodes: [0], edges: [] },
  },
  { name: "the same node", nodes: 1, edges: [], pair: [0, 0], answer: { kind: "joined" } },
  {
    name: "a longer way with one switch rather than a short one with two",
    nodes: 5,
    edges: [
      [0, 1],
      [1, 4],
      [0, 2],
      [2, 3],
      [3, 4],
    ],
    blocked: { edges: [0, 1, 3] },
    pair: [0, 4],
    answer: { kind: "blocked", what: "edge", number: 3, edges: [2, 3, 4] },
  },
  {
    name: "the shorter of two ways with one switch each, and not the longer one whose switch leads straight to the end",
    nodes: 5,
    edges: [
      [0, 1],
      [1, 2],
      [0, 3],
      [3, 4],
      [4, 2],
    ],
    blocked: { edges: [0, 4] },
    pair: [0, 2],
    answer: { kind: "blocked", what: "edge", number: 0, edges: [0, 1] },
  },
  { name: "pieces apart in both", nodes: 3, edges: [[0, 1]], pair: [0, 2], answer: { kind: "apart" } },
  {
    name: "a way that the wider passage does not have either",
    nodes: 4,
    edges: chain,
    blocked: { edges: [1, 2] },
    blockedInWider: { edges: [2] },
    pair: [0, 3],
    answer: { kind: "apart" },
  },
];

describe("firstBlocked()", () => {
  test.each(cases)("answers for $name", ({ nodes, edges, blocked, blockedInWider, pair: [from, to], answer }) => {
    const index = graphOf(nodes, edges);
    const passages = { narrow: passageWithout(index, blocked), wider: passageWithout(index, blockedInWider) };
    expect(firstBlocked(index, passages, { from, to })).toMatchObject(answer);
  });

  test("takes a way with the fewest blocked steps and then the fewest edges, among all ways (law)", () => {
    let cuts = 0;
    fc.assert(
      fc.property(smallQuestions, ({ index, passage, pair }) => {
        const wider = openPassage(index);
        const answer = firstBlocked(index, { narrow: passage, wider }, pair);
        const isJoined = shortestPath(index, passage, pair).kind === "found";
        const ways = allSimplePaths({ index, passage: wider, pair });
        expect(answer.kind).toBe(isJoined ? "joined" : ways.length > 0 ? "blocked" : "apart");
        if (answer.kind !== "blocked") return;
        cuts++;
        const cost = (way: { readonly nodes: readonly number[]; readonly edges: readonly number[] }): number =>
          way.edges.filter(
            (edge, place) => passage.edges[edge] === 0 || passage.nodes[way.nodes[place + 1] ?? -1] === 0,
          ).length *
            100 +
          way.edges.length;
        expect(ways).toContainEqual({ nodes: answer.nodes, edges: answer.edges });
        expect(cost(answer)).toBe(Math.min(...ways.map(cost)));
        expect(answer.what === "edge" ? passage.edges[answer.number] : passage.nodes[answer.number]).toBe(0);
      }),
      { seed: 360, numRuns: 1000 },
    );
    expect(cuts).toBeGreaterThan(100);
  });
});
