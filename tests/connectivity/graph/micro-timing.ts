/**
 * Times the graph functions on a large graph with the shape of a harness and prints the figures; a script to run by hand
 * or from tests/bench, not a test: what a machine needs is no property of the code.
 *
 * Run with `node .ci/run-ts.mjs tests/connectivity/graph/micro-timing.ts`.
 */
import { seededRandom } from "ohmward/base";
import { buildGraphIndex } from "ohmward/harness-model";
import {
  betweenNodes,
  findBiconnectedComponents,
  firstBlocked,
  shortestPath,
  shortestSimplePaths,
} from "../../../src/connectivity/graph/index.ts";
import { harnessShapedGraph } from "./harness-shaped-graph.ts";
import { openPassage } from "./open-passage.ts";

const rounds = 30;

/** Prints the median and the worst of many rounds, in ms per call. */
function report(label: string, callsPerRound: number, work: (round: number) => void): void {
  const times: number[] = [];
  for (let round = 0; round < rounds; round++) {
    const start = performance.now();
    for (let call = 0; call < callsPerRound; call++) work(round * callsPerRound + call);
    times.push((performance.now() - start) / callsPerRound);
  }
  times.sort((a, b) => a - b);
  const median = times[rounds >> 1] ?? Number.NaN;
  console.log(
    `${label.padEnd(44)} median ${median.toFixed(4)} ms, worst ${(times.at(-1) ?? Number.NaN).toFixed(4)} ms`,
  );
}

for (const edges of [5_000, 55_000, 220_000]) {
  const shape = harnessShapedGraph({ seed: 45, edges });
  const index = buildGraphIndex(shape.nodeCount, shape.from, shape.to);
  const passage = openPassage(index);
  // Without the feed bar and the grounds (nodes 0 to 3) the graph falls into circuits, as most questions want it.
  const cut = openPassage(index);
  cut.nodes.fill(0, 0, 4);
  const blocks = findBiconnectedComponents(index, passage);
  const cutBlocks = findBiconnectedComponents(index, cut);
  const random = seededRandom(7);
  const pairs = Array.from({ length: 1000 }, () => ({
    from: random.integer(0, index.nodeCount - 1),
    to: random.integer(0, index.nodeCount - 1),
  }));
  const near = pairs.map(({ from }) => ({ from, to: Math.min(index.nodeCount - 1, from + 5) }));
  const of = (list: typeof pairs, call: number): (typeof pairs)[number] =>
    list[call % list.length] ?? { from: 0, to: 0 };
  console.log(`\n${index.nodeCount} nodes, ${index.edgeCount} edges, ${blocks.blockCount} blocks`);
  report("findBlocks", 1, () => findBiconnectedComponents(index, passage));
  report("findBlocks, cut into circuits", 1, () => findBiconnectedComponents(index, cut));
  report("betweenNodes, any two", 20, (call) => betweenNodes(blocks, of(pairs, call)));
  report("betweenNodes, any two, cut into circuits", 200, (call) => betweenNodes(cutBlocks, of(pairs, call)));
  report("betweenNodes, near, cut into circuits", 200, (call) => betweenNodes(cutBlocks, of(near, call)));
  report("shortestPath", 5, (call) => shortestPath(index, passage, of(pairs, call)));
  report("firstBlocked", 5, (call) => firstBlocked(index, { narrow: cut, wider: passage }, of(pairs, call)));
  report("shortestSimplePaths, 5, in the between part", 2, (call) => {
    const between = betweenNodes(cutBlocks, of(near, call));
    if (between.kind === "found") {
      shortestSimplePaths(index, cut, { ...of(near, call), limit: 5, edges: between.edges });
    }
  });
}
