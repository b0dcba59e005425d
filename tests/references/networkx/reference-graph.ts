import { seededRandom } from "ohmward/base";
import type { NodePair } from "../../../src/connectivity/graph/index.ts";
import { sourceGraph } from "./graph-source.ts";

/** A graph, what is blocked in it, and the pairs of nodes asked about: one line of graphs.json. */
export interface ReferenceGraph {
  readonly seed: number;
  readonly nodeCount: number;
  readonly from: readonly number[];
  readonly to: readonly number[];
  readonly blockedNodes: readonly number[];
  readonly blockedEdges: readonly number[];
  readonly pairs: readonly NodePair[];
}

/** Numbers of the graphs in the reference. */
export const referenceSeeds: readonly number[] = Array.from({ length: 200 }, (_, place) => place + 1);

/**
 * One graph of the reference with its questions, the same for the same seed.
 *
 * Of every four graphs one is open, one has a twentieth of its nodes and edges blocked, one the inside of half its
 * components, and one both; so that there are rings, bridges, blocked ends and pieces apart.
 */
export function referenceGraph(seed: number): ReferenceGraph {
  const { nodeCount, from, to, elements } = sourceGraph(seed);
  const random = seededRandom(1_000_000 + seed);
  const choose = (numbers: readonly number[], share: number): number[] => numbers.filter(() => random.next() < share);
  const share = seed % 2 === 0 ? 0.05 : 0;
  const blockedNodes = choose([...Array(nodeCount).keys()], share);
  const chosenEdges = [...choose([...from.keys()], share), ...choose(elements, seed % 4 < 2 ? 0.5 : 0)];
  const blockedEdges = [...new Set(chosenEdges)].sort((a, b) => a - b);
  const node = (): number => random.integer(0, nodeCount - 1);
  const pairs = Array.from({ length: 4 }, () => ({ from: node(), to: node() }));
  return { seed, nodeCount, from, to, blockedNodes, blockedEdges, pairs };
}

/** The text of graphs.json: a list with one line a graph. */
export function graphsText(): string {
  const lines = referenceSeeds.map((seed) => JSON.stringify(referenceGraph(seed)));
  return `[\n${lines.join(",\n")}\n]\n`;
}
