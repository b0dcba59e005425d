import type { BranchShape, BranchValues } from "./branch-set.ts";

/** Nodes joined by ideal branches. Inside a cluster the voltages differ by fixed amounts. */
export interface Clusters {
  readonly count: number;
  /** Per node: its cluster. */
  readonly ofNode: Int32Array;
  /** Per node: volt above the zero of its cluster. */
  readonly offset: Float64Array;
}

/** Clusters, or the ideal branches that cannot all be true at once. */
type Joined =
  | { readonly kind: "joined"; readonly clusters: Clusters }
  | { readonly kind: "contradictory"; readonly branches: readonly number[] };

/** Rounding of sums of source voltages is no contradiction. */
const EQUAL_SHARE = 1e-9;

/**
 * Merges the nodes that branches of 0 ohm join. A source without inner resistance fixes a difference instead of making two nodes one; two
 * such fixings that disagree are a contradiction.
 *
 * @returns The clusters, or the branches of the loop that does not add up.
 */
export function mergeIdealNodes(shape: BranchShape, values: BranchValues): Joined {
  const { nodeCount, from, to } = shape;
  const parent = new Int32Array(nodeCount);
  for (let node = 0; node < nodeCount; node++) parent[node] = node;
  // Volt of a node above its parent.
  const above = new Float64Array(nodeCount);
  const find = (node: number): number => {
    let root = node;
    let height = 0;
    while (parent[root] !== root) {
      height += above[root] ?? 0;
      root = parent[root] ?? root;
    }
    let walk = node;
    while (parent[walk] !== root && walk !== root) {
      const next = parent[walk] ?? root;
      const step = above[walk] ?? 0;
      parent[walk] = root;
      above[walk] = height;
      height -= step;
      walk = next;
    }
    return root;
  };
  for (let branch = 0; branch < from.length; branch++) {
    if (values.ohm[branch] !== 0) continue;
    const a = from[branch] ?? 0;
    const b = to[branch] ?? 0;
    const rootA = find(a);
    const rootB = find(b);
    const volt = values.volt[branch] ?? 0;
    const heightA = rootA === a ? 0 : (above[a] ?? 0);
    const heightB = rootB === b ? 0 : (above[b] ?? 0);
    if (rootA !== rootB) {
      parent[rootB] = rootA;
      above[rootB] = heightA + volt - heightB;
    } else if (Math.abs(heightA + volt - heightB) > EQUAL_SHARE * Math.max(Math.abs(volt), Math.abs(heightB))) {
      return { kind: "contradictory", branches: loopOf(shape, values, branch) };
    }
  }
  return { kind: "joined", clusters: numberClusters(nodeCount, find, above) };
}

function numberClusters(nodeCount: number, find: (node: number) => number, above: Float64Array): Clusters {
  const ofNode = new Int32Array(nodeCount);
  const offset = new Float64Array(nodeCount);
  const numbers = new Int32Array(nodeCount).fill(-1);
  let count = 0;
  for (let node = 0; node < nodeCount; node++) {
    const root = find(node);
    if (numbers[root] === -1) numbers[root] = count++;
    ofNode[node] = numbers[root] ?? 0;
    offset[node] = root === node ? 0 : (above[node] ?? 0);
  }
  return { count, ofNode, offset };
}

/** The ideal branches of the loop that one more ideal branch closes, itself included. */
function loopOf(shape: BranchShape, values: BranchValues, closing: number): readonly number[] {
  const start = shape.to[closing] ?? 0;
  const goal = shape.from[closing] ?? 0;
  const cameBy = new Map<number, { readonly branch: number; readonly node: number }>();
  const queue = [start];
  for (let at = 0; at < queue.length && !(cameBy.has(goal) || start === goal); at++) {
    const node = queue[at] ?? 0;
    for (let branch = 0; branch < closing; branch++) {
      if (values.ohm[branch] !== 0) continue;
      const ends = [shape.from[branch] ?? 0, shape.to[branch] ?? 0];
      if (!ends.includes(node)) continue;
      const other = ends[0] === node ? ends[1] : ends[0];
      if (other === undefined || other === start || cameBy.has(other)) continue;
      cameBy.set(other, { branch, node });
      queue.push(other);
    }
  }
  const loop = [closing];
  let node = goal;
  for (let step = cameBy.get(node); step && node !== start; step = cameBy.get(node)) {
    loop.push(step.branch);
    node = step.node;
  }
  return loop.toSorted((a, b) => a - b);
}
