import { spawnSync } from "node:child_process";
import { join } from "node:path";
import { bfsFromNode } from "graphology-traversal";
import { seededRandom } from "ohmward/base";
import { harnessGraph, type Harness } from "ohmward/harness-model";
import { betweenNodes, findBiconnectedComponents, reach, shortestPath } from "ohmward/connectivity";
import { countBlocksByGraphology } from "./graphology-blocks.ts";
import { measure } from "./measure.ts";
import { openPassage } from "../../connectivity/graph/open-passage.ts";

/** The same work by us, by graphology and by networkx, in ms. A peer that is not there has NaN. */
export interface PeerFigures {
  readonly name: string;
  readonly oursMs: number;
  readonly graphologyMs: number;
  readonly networkxMs: number;
}

/** What the networkx program answers. */
interface NetworkxAnswer {
  readonly missing?: true;
  readonly version?: string;
  readonly blocksMs: number;
  readonly blocks: number;
  readonly reachMs: number;
  readonly reached: number;
  readonly pathMs: number;
  readonly steps: readonly number[];
}

type Pair = readonly [number, number];

/** Runs the peers on the graph of a harness; answers must agree, or the times mean nothing. */
export function benchPeers(
  harness: Harness,
  runs: number,
): { readonly figures: readonly PeerFigures[]; readonly networkx: string } {
  const { index } = harness;
  const passage = openPassage(index);
  const pairs = choosePairs(harness, 10);
  const start = pairs[0]?.[0] ?? 0;
  const graph = harnessGraph(harness).copy();
  const startKey = harness.nodes[start]?.key ?? "";

  const blocks = measure(runs, () => findBiconnectedComponents(index, passage));
  const ours = measure(runs, () => reach(index, passage, [start]).order.length);
  const path = measure(runs, () => pairs.map(([from, to]) => pathLength(shortestPath(index, passage, { from, to }))));
  const between = measure(runs, () => pairs.map(([from, to]) => betweenNodes(blocks.last, { from, to }).kind));

  const theirBlocks = measure(runs, () => countBlocksByGraphology(graph));
  const theirReach = measure(runs, () => {
    let reached = 0;
    bfsFromNode(graph, startKey, () => {
      reached++;
    });
    return reached;
  });
  const networkx = askNetworkx(harness, pairs, runs);

  agree("blocks", [blocks.last.blockCount, theirBlocks.last, ...(networkx ? [networkx.blocks] : [])]);
  agree("nodes reached", [ours.last, theirReach.last, ...(networkx ? [networkx.reached] : [])]);
  if (networkx) agree("steps", [path.last.join(" "), networkx.steps.join(" ")]);

  return {
    networkx: networkx?.version === undefined ? "networkx not present: no ratio" : `networkx ${networkx.version}`,
    figures: [
      row("all blocks of the graph", blocks.median, [theirBlocks.median, networkx?.blocksMs]),
      row("all that is reached from a node", ours.median, [theirReach.median, networkx?.reachMs]),
      row("shortest path of a pair", path.median / pairs.length, [NaN, networkx?.pathMs]),
      // No peer has this question; the nearest they offer is to walk the whole graph once.
      row("between a pair, blocks known (peers: whole walk)", between.median / pairs.length, [
        theirReach.median,
        networkx?.reachMs,
      ]),
    ],
  };
}

function row(name: string, oursMs: number, peers: readonly [number, number | undefined]): PeerFigures {
  return { name, oursMs, graphologyMs: peers[0], networkxMs: peers[1] ?? NaN };
}

function pathLength(path: ReturnType<typeof shortestPath>): number {
  return path.kind === "found" ? path.edges.length : -1;
}

function agree(what: string, answers: readonly (number | string)[]): void {
  if (new Set(answers).size > 1) throw new Error(`The peers do not agree on ${what}: ${answers.join(", ")}`);
}

/** Pairs of connected nodes, the first from the largest part of the graph. */
function choosePairs(harness: Harness, count: number): readonly Pair[] {
  const random = seededRandom(45);
  const start = harness.nodeNumbers.get("G1+") ?? 0;
  const { order } = reach(harness.index, openPassage(harness.index), [start]);
  const nodes = [...order];
  return Array.from({ length: count }, () => [random.pick(nodes), random.pick(nodes)] as const);
}

function askNetworkx({ index }: Harness, pairs: readonly Pair[], runs: number): NetworkxAnswer | undefined {
  const edges = Array.from(index.from, (from, edge) => [from, index.to[edge] ?? from]);
  const input = JSON.stringify({ nodes: index.nodeCount, edges, pairs, runs });
  const program = join(process.cwd(), "tests", "bench", "networkx_peer.py");
  const run = spawnSync("/usr/bin/python3", [program], { input, encoding: "utf8", maxBuffer: 2 ** 26 });
  if (run.status !== 0) {
    // No Python is as good as no networkx; a program that fails is not.
    if (run.error) return undefined;
    throw new Error(`The networkx program failed: ${run.stderr}`);
  }
  const answer = JSON.parse(run.stdout) as NetworkxAnswer;
  return answer.missing ? undefined : answer;
}
