import { spawnSync } from "node:child_process";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { buildGraphIndex, type GraphIndex } from "ohmward/harness-model";
import {
  betweenNodes,
  findBiconnectedComponents,
  shortestPath,
  shortestSimplePaths,
  type BiconnectedComponents,
  type NodePair,
  type Passage,
} from "../../../src/connectivity/graph/index.ts";
import { graphsText, referenceGraph, referenceSeeds, type ReferenceGraph } from "./reference-graph.ts";
import { openPassage } from "../../connectivity/graph/open-passage.ts";

// Source: networkx 2.8.8 (A. Hagberg, D. Schult, P. Swart, "Exploring network structure, dynamics, and function using
// NetworkX", SciPy 2008), run by make-reference.py beside this file; what it computes and how differs, see there.

/** What the reference says of one pair of nodes; `null` = no path. */
type ReferenceAnswer = {
  readonly nodes: readonly number[];
  readonly edges: readonly number[];
  readonly passNodes: readonly number[];
  readonly passEdges: readonly number[];
  /** Edges of the shortest paths, one more than are listed here, so that `complete` can be told. */
  readonly lengths: readonly number[];
} | null;

/** One line of reference.json. */
interface ReferenceLine {
  readonly seed: number;
  readonly components: number;
  readonly blocks: number;
  readonly cutNodes: readonly number[];
  readonly answers: readonly ReferenceAnswer[];
}

/** Number of paths listed: one fewer than in the reference. */
const pathsListed = 6;
const folder = import.meta.dirname;
const readKept = (name: string): string => readFileSync(join(folder, name), "utf8");
const reference = JSON.parse(readKept("reference.json")) as readonly ReferenceLine[];

interface OpenedGraph {
  readonly index: GraphIndex;
  readonly passage: Passage;
  readonly blocks: BiconnectedComponents;
}

function openGraph(graph: ReferenceGraph): OpenedGraph {
  const index = buildGraphIndex(graph.nodeCount, graph.from, graph.to);
  const passage = openPassage(index);
  for (const node of graph.blockedNodes) passage.nodes[node] = 0;
  for (const edge of graph.blockedEdges) passage.edges[edge] = 0;
  return { index, passage, blocks: findBiconnectedComponents(index, passage) };
}

/** A cut node is in two blocks or more: the one above it and those it is the top of. */
function cutNodes(blocks: BiconnectedComponents): number[] {
  const blocksAt = Array.from(blocks.parentBlockOfNode, (block): number => (block < 0 ? 0 : 1));
  for (const top of blocks.topNodeOfBlock) blocksAt[top] = (blocksAt[top] ?? 0) + 1;
  return [...blocksAt.keys()].filter((node) => (blocksAt[node] ?? 0) > 1);
}

function ownAnswer({ index, passage, blocks }: OpenedGraph, pair: NodePair): ReferenceAnswer {
  const between = betweenNodes(blocks, pair);
  const whole = shortestPath(index, passage, pair);
  expect(whole.kind).toBe(between.kind);
  if (between.kind === "apart" || whole.kind === "apart") return null;
  const listed = shortestSimplePaths(index, passage, { ...pair, limit: pathsListed + 1, edges: between.edges });
  expect(listed.paths[0]).toEqual({ nodes: whole.nodes, edges: whole.edges });
  const fewer = shortestSimplePaths(index, passage, { ...pair, limit: pathsListed, edges: between.edges });
  expect(fewer.complete).toBe(listed.paths.length <= pathsListed);
  return {
    nodes: [...between.nodes].sort((a, b) => a - b),
    edges: [...between.edges].sort((a, b) => a - b),
    passNodes: [...between.mustPassNodes],
    passEdges: [...between.mustPassEdges],
    lengths: listed.paths.map((path) => path.edges.length),
  };
}

function ownLine(seed: number): ReferenceLine {
  const graph = referenceGraph(seed);
  const opened = openGraph(graph);
  return {
    seed,
    components: opened.blocks.componentCount,
    blocks: opened.blocks.blockCount,
    cutNodes: cutNodes(opened.blocks),
    answers: graph.pairs.map((pair) => ownAnswer(opened, pair)),
  };
}

/** A Python that has networkx, or undefined. */
function pythonWithNetworkx(): string | undefined {
  return ["/usr/bin/python3", "python3"].find((program) => spawnSync(program, ["-c", "import networkx"]).status === 0);
}

describe("the graph functions against networkx", () => {
  test("graphs.json holds the graphs that the tests are about", () => {
    expect(readKept("graphs.json") === graphsText(), "graphs.json differs: make it again, see README.md").toBe(true);
    expect(reference.map((line) => line.seed)).toEqual(referenceSeeds);
  });

  test("the questions are worth asking: rings, bridges, pieces apart and more paths than are listed", () => {
    const answers = reference.flatMap((line) => line.answers);
    const found = answers.filter((answer) => answer !== null);
    expect(answers.length - found.length).toBeGreaterThan(50);
    expect(found.filter((answer) => answer.passEdges.length > 0).length).toBeGreaterThan(100);
    expect(found.filter((answer) => answer.edges.length > answer.passEdges.length).length).toBeGreaterThan(100);
    expect(found.filter((answer) => answer.lengths.length > pathsListed).length).toBeGreaterThan(100);
  });

  test.each(reference.map((line) => [line.seed, line] as const))(
    "findBlocks(), betweenNodes() and shortestSimplePaths() agree with the kept reference on graph %i",
    (seed, line) => {
      expect(ownLine(seed)).toEqual(line);
    },
  );

  test("make-reference.py still gives the kept reference (needs networkx)", { timeout: 120_000 }, (ctx) => {
    const python = pythonWithNetworkx();
    if (python === undefined) {
      ctx.skip("no python3 with networkx found; on Debian: apt-get install python3-networkx");
      return;
    }
    const run = spawnSync(python, [join(folder, "make-reference.py"), join(folder, "graphs.json")], {
      encoding: "utf8",
      maxBuffer: 64 * 1024 * 1024,
    });
    expect(run.stderr).toBe("");
    expect(run.status).toBe(0);
    expect(run.stdout === readKept("reference.json"), "reference.json differs from what networkx gives now").toBe(true);
  });
});
