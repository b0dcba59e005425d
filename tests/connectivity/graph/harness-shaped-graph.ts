import { seededRandom, type SeededRandom } from "ohmward/base";

/** A bare graph: edge i joins `from[i]` to `to[i]`. */
export interface BareGraph {
  readonly nodeCount: number;
  readonly from: readonly number[];
  readonly to: readonly number[];
}

/** How to make a {@link harnessShapedGraph}. */
export interface ShapeQuestion {
  readonly seed: number;
  /** About so many edges. */
  readonly edges: number;
}

/** A graph that grows; each method gives the number of the node it ends at. */
interface Sketch {
  readonly node: () => number;
  readonly join: (a: number, b: number) => void;
  /** A wire to a new contact. */
  readonly wire: (start: number) => number;
  readonly edgeCount: () => number;
}

/**
 * An invented graph with the shape of a vehicle harness, the same for the same seed.
 *
 * Circuits hang between a feed bar and a few ground studs: fuse, mated contacts, wires, inline connectors, splices with
 * several loads, a common return. Now and then a feed is doubled (parallel wires), two circuits are tied together (loops), a
 * wire comes back to its own splice (self loop) or a piece hangs on nothing. The figures are invented.
 */
export function harnessShapedGraph(question: ShapeQuestion): BareGraph {
  const random = seededRandom(question.seed);
  const from: number[] = [];
  const to: number[] = [];
  let nodeCount = 0;
  const node = (): number => nodeCount++;
  const join = (a: number, b: number): void => {
    from.push(a);
    to.push(b);
  };
  const wire = (start: number): number => {
    const end = node();
    join(start, end);
    return end;
  };
  const sketch: Sketch = { node, join, wire, edgeCount: () => from.length };
  const bar = node();
  const grounds = [wire(bar), node(), node()];
  join(grounds[0] ?? bar, grounds[1] ?? bar);
  const splices: number[] = [bar];
  while (from.length < question.edges) addCircuit(sketch, random, { bar, grounds, splices });
  return { nodeCount, from, to };
}

interface Surroundings {
  readonly bar: number;
  readonly grounds: readonly number[];
  readonly splices: number[];
}

function addCircuit(sketch: Sketch, random: SeededRandom, around: Surroundings): void {
  const happens = (chance: number): boolean => random.next() < chance;
  const start = happens(0.05) ? sketch.node() : happens(0.8) ? around.bar : random.pick(around.splices);
  const splice = run(sketch, random, sketch.wire(start));
  around.splices.push(splice);
  if (happens(0.1)) sketch.join(start, splice);
  if (happens(0.03)) sketch.join(splice, splice);
  if (happens(0.08)) sketch.join(run(sketch, random, splice), random.pick(around.splices));
  const common = happens(0.3) ? sketch.node() : undefined;
  const loads = random.integer(1, 3);
  for (let load = 0; load < loads; load++) {
    const out = run(sketch, random, splice);
    if (happens(0.1)) sketch.join(splice, out);
    const back = run(sketch, random, sketch.wire(out));
    sketch.join(back, common ?? random.pick(around.grounds));
  }
  if (common !== undefined) sketch.join(run(sketch, random, common), random.pick(around.grounds));
}

/** A way of one to four wires, with a mated pair of contacts between each. */
function run(sketch: Sketch, random: SeededRandom, start: number): number {
  let end = sketch.wire(start);
  for (let more = random.integer(0, 3); more > 0; more--) end = sketch.wire(sketch.wire(end));
  return end;
}
