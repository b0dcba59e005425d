import fc from "fast-check";
import { buildGraphIndex, type GraphIndex } from "ohmward/harness-model";
import { type NodePair, type Passage, type Path } from "../../../src/connectivity/graph/index.ts";
import { openPassage } from "./open-passage.ts";

/** An edge as it is written in a test: its two nodes. */
export type EdgeEnds = readonly [number, number];

/** The index of a graph written as a list of edges. */
export function graphOf(nodeCount: number, edges: readonly EdgeEnds[]): GraphIndex {
  return buildGraphIndex(
    nodeCount,
    edges.map(([from]) => from),
    edges.map(([, to]) => to),
  );
}

/** What a test blocks. */
export interface BlockedParts {
  readonly edges?: readonly number[];
  readonly nodes?: readonly number[];
}

/** A passage with some parts blocked. */
export function passageWithout(index: GraphIndex, blocked: BlockedParts = {}): Passage {
  const passage = openPassage(index);
  for (const edge of blocked.edges ?? []) passage.edges[edge] = 0;
  for (const node of blocked.nodes ?? []) passage.nodes[node] = 0;
  return passage;
}

/** A small question made by fast-check: a graph, what is blocked, two nodes. */
export interface SmallQuestion {
  readonly index: GraphIndex;
  readonly passage: Passage;
  readonly pair: NodePair;
}

/** Graphs of up to 9 nodes with parallel edges, self loops, pieces apart and blocked parts. */
export const smallQuestions: fc.Arbitrary<SmallQuestion> = fc.integer({ min: 1, max: 9 }).chain((nodeCount) => {
  const node = fc.nat({ max: nodeCount - 1 });
  return fc
    .record({
      edges: fc.array(fc.tuple(node, node), { maxLength: 14, size: "max" }),
      // Mostly open: a question in which nearly all is blocked tells little.
      blockedEdges: fc.array(fc.nat({ max: 13 }), { maxLength: 2 }),
      blockedNodes: fc.array(node, { maxLength: 1 }),
      from: node,
      to: node,
    })
    .map(({ edges, blockedEdges, blockedNodes, from, to }) => {
      const index = graphOf(nodeCount, edges);
      const kept = blockedEdges.filter((edge) => edge < edges.length);
      return { index, passage: passageWithout(index, { edges: kept, nodes: blockedNodes }), pair: { from, to } };
    });
});

/** Every simple path by trying all of them, one by one; only for small graphs. Shares no code with what it checks. */
export function allSimplePaths({ index, passage, pair }: SmallQuestion): Path[] {
  const found: Path[] = [];
  const extend = (nodes: readonly number[], edges: readonly number[]): void => {
    const last = nodes.at(-1);
    if (last === pair.to) {
      found.push({ nodes, edges });
      return;
    }
    for (let edge = 0; edge < index.edgeCount; edge++) {
      if (passage.edges[edge] === 0) continue;
      const ends = [index.from[edge] ?? -1, index.to[edge] ?? -1];
      if (ends[0] !== last && ends[1] !== last) continue;
      const next = (ends[0] === last ? ends[1] : ends[0]) ?? -1;
      if (nodes.includes(next) || passage.nodes[next] === 0) continue;
      extend([...nodes, next], [...edges, edge]);
    }
  };
  if (passage.nodes[pair.from] === 1 && passage.nodes[pair.to] === 1) extend([pair.from], []);
  return found;
}

/** The question asked the other way round. */
export function reversed(pair: NodePair): NodePair {
  return { from: pair.to, to: pair.from };
}

/** Numbers as a sorted list, each once. */
export function sorted(numbers: Iterable<number>): number[] {
  return [...new Set(numbers)].sort((a, b) => a - b);
}
