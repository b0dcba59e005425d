import type { BranchShape } from "../solver/branch-set.ts";
import type { PartGroup } from "./part.ts";
import type { Settled } from "./settle.ts";

/** What current passes through without being used. */
const CONDUCTORS: ReadonlySet<PartGroup> = new Set(["wire", "joint", "bar", "fuse", "switch"]);
/** A node with more parts than this is a rail that half the machine hangs on: the way does not go on from there. */
const MOST_PARTS = 24;

/**
 * The terminals of everything that follows the voltages of a circuit: regulators, relays, diodes, pulsed drivers that its nodes lead
 * to through conductors alone, not counting what hangs on a rail.
 *
 * @param settled The settled machine.
 * @param nodes Numbers of the nodes of the circuit.
 * @returns Numbers of nodes to keep with the circuit.
 */
export function nearbyControls(settled: Settled, nodes: Iterable<number>): ReadonlySet<number> {
  const { parts, shape } = settled.list;
  const byNode = partsByNode(shape);
  const partsOf = (node: number): Int32Array =>
    byNode.parts.subarray(byNode.offsets[node] ?? 0, byNode.offsets[node + 1] ?? 0);
  const region = new Set(nodes);
  const keep = new Set<number>();
  for (const node of region) {
    const own = partsOf(node);
    if (own.length > MOST_PARTS) continue;
    for (const at of own) {
      const part = parts[at];
      const from = shape.from[at] ?? 0;
      const to = shape.to[at] ?? 0;
      if (part?.control || part?.module !== undefined) keep.add(from).add(to);
      else if (part && CONDUCTORS.has(part.group)) region.add(from).add(to);
    }
  }
  for (const coil of settled.list.coils) {
    const isNear = [coil.from, coil.to].some((node) => region.has(node) && partsOf(node).length <= MOST_PARTS);
    if (isNear) keep.add(coil.from).add(coil.to);
  }
  return keep;
}

interface PartsByNode {
  /** Parts of node n stand in `parts` from `offsets[n]` to `offsets[n + 1] - 1`. */
  readonly offsets: Int32Array;
  readonly parts: Int32Array;
}

// Read once a shape, which never changes.
const known = new WeakMap<BranchShape, PartsByNode>();

function partsByNode(shape: BranchShape): PartsByNode {
  const found = known.get(shape);
  if (found) return found;
  const offsets = new Int32Array(shape.nodeCount + 1);
  for (const ends of [shape.from, shape.to]) {
    for (let at = 0; at < ends.length; at++) {
      const node = (ends[at] ?? 0) + 1;
      offsets[node] = (offsets[node] ?? 0) + 1;
    }
  }
  for (let node = 0; node < shape.nodeCount; node++)
    offsets[node + 1] = (offsets[node + 1] ?? 0) + (offsets[node] ?? 0);
  const next = offsets.slice();
  const parts = new Int32Array(2 * shape.from.length);
  for (const ends of [shape.from, shape.to]) {
    for (let at = 0; at < ends.length; at++) {
      const node = ends[at] ?? 0;
      parts[next[node] ?? 0] = at;
      next[node] = (next[node] ?? 0) + 1;
    }
  }
  const made = { offsets, parts };
  known.set(shape, made);
  return made;
}
