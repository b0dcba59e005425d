import type { GraphIndex } from "../../harness-model/index.ts";
import { intAt, isSet, type Passage } from "./passage.ts";

/** The arrays of one depth-first walk, allocated once, and how far it has come. */
interface Walk {
  /** Number of each node in the walk, from 1; 0 = not met. */
  readonly metAs: Int32Array;
  /** Lowest `metAs` that the part below a node comes back to. */
  readonly low: Int32Array;
  /** The nodes in the order they were met. */
  readonly sequence: Int32Array;
  readonly parentNode: Int32Array;
  /** Next arc to look at, for each node. */
  readonly nextArc: Int32Array;
  /** Nodes met whose parent block is not closed yet; the roots of finished components stay at the bottom. */
  readonly open: Int32Array;
  readonly parentBlock: Int32Array;
  readonly topNode: Int32Array;
  readonly component: Int32Array;
  metCount: number;
  openCount: number;
  blockCount: number;
  componentCount: number;
}

/**
 * Finds the biconnected blocks of the passable graph and roots its block-cut forest.
 *
 * Why: a node or edge lies on some simple path from a to b exactly if it is in a block on the way from a to b through the block-cut tree,
 * and every path passes exactly the cut nodes and the one-edge blocks on that way. So one linear search answers every later "what is
 * between" at the cost of its answer; see `betweenNodes`.
 *
 * How: depth first without recursion, so that the depth of the graph does not matter. When the part below a node does not come back above
 * the parent of that node, the nodes still open form a block with the parent as its top node. The block of an edge is the parent block of
 * whichever of its ends was met later; so parallel edges fall into one block, and coming back to the parent itself, over the same wire or a
 * second one, changes nothing.
 *
 * Result by case: nothing passable gives no blocks; a tree gives a block for each edge; a bow-tie (two triangles that share a node) gives
 * two blocks of three edges; two nodes joined by two wires give one block of two edges; a self loop or a blocked edge belongs to no block.
 *
 * @param index the graph; may have parallel edges and self loops
 * @returns the blocks; the same input gives the same numbers Cost: O(nodes + edges) time and memory.
 *
 * Source: J. Hopcroft, R. Tarjan, "Algorithm 447: efficient algorithms for graph manipulation", CACM 16 (1973) 372-378; block-cut tree: F.
 * Harary, G. Prins, "The block-cutpoint-tree of a graph", Publ. Math. Debrecen 13 (1966) 103-107.
 */
export function findBiconnectedComponents(index: GraphIndex, passage: Passage): BiconnectedComponents {
  const walk = startWalk(index);
  for (let node = 0; node < index.nodeCount; node++) {
    if (intAt(walk.metAs, node) === 0 && isSet(passage.nodes, node))
      walkComponent(index, passage, { walk, root: node });
  }
  const blockOfEdge = assignEdges(index, passage, walk);
  const edgeGroups = groupByKey(blockOfEdge, walk.blockCount);
  const nodeGroups = groupByKey(walk.parentBlock, walk.blockCount);
  return {
    blockCount: walk.blockCount,
    componentCount: walk.componentCount,
    componentOfNode: walk.component,
    parentBlockOfNode: walk.parentBlock,
    levelOfNode: measureLevels(walk),
    topNodeOfBlock: walk.topNode.slice(0, walk.blockCount),
    blockOfEdge,
    edgeOffsets: edgeGroups.offsets,
    edgesByBlock: edgeGroups.members,
    nodeOffsets: nodeGroups.offsets,
    nodesByBlock: nodeGroups.members,
  };
}

function startWalk(index: GraphIndex): Walk {
  const { nodeCount } = index;
  return {
    metAs: new Int32Array(nodeCount),
    low: new Int32Array(nodeCount),
    sequence: new Int32Array(nodeCount),
    parentNode: new Int32Array(nodeCount),
    nextArc: index.offsets.slice(0, nodeCount),
    open: new Int32Array(nodeCount),
    parentBlock: new Int32Array(nodeCount).fill(-1),
    topNode: new Int32Array(nodeCount),
    component: new Int32Array(nodeCount).fill(-1),
    metCount: 0,
    openCount: 0,
    blockCount: 0,
    componentCount: 0,
  };
}

function walkComponent(
  index: GraphIndex,
  passage: Passage,
  start: { readonly walk: Walk; readonly root: number },
): void {
  const { walk, root } = start;
  const { offsets, targets, arcEdges } = index;
  const { metAs, low, parentNode, nextArc } = walk;
  let node = root;
  meet(walk, root, -1);
  while (node >= 0) {
    const arc = intAt(nextArc, node);
    if (arc < intAt(offsets, node + 1)) {
      nextArc[node] = arc + 1;
      const next = intAt(targets, arc);
      if (!isSet(passage.edges, intAt(arcEdges, arc)) || !isSet(passage.nodes, next)) continue;
      const nextMetAs = intAt(metAs, next);
      if (nextMetAs === 0) {
        meet(walk, next, node);
        node = next;
      } else if (nextMetAs < intAt(low, node)) low[node] = nextMetAs;
      continue;
    }
    const parent = intAt(parentNode, node);
    if (parent >= 0) {
      const lowest = intAt(low, node);
      if (lowest >= intAt(metAs, parent)) closeBlock(walk, parent, node);
      else if (lowest < intAt(low, parent)) low[parent] = lowest;
    }
    node = parent;
  }
  walk.componentCount++;
}

function meet(walk: Walk, node: number, parent: number): void {
  walk.sequence[walk.metCount++] = node;
  walk.metAs[node] = walk.metCount;
  walk.low[node] = walk.metCount;
  walk.parentNode[node] = parent;
  walk.component[node] = walk.componentCount;
  walk.open[walk.openCount++] = node;
}

function closeBlock(walk: Walk, top: number, below: number): void {
  let node = -1;
  while (node !== below) {
    node = intAt(walk.open, --walk.openCount);
    walk.parentBlock[node] = walk.blockCount;
  }
  walk.topNode[walk.blockCount++] = top;
}

function assignEdges(index: GraphIndex, passage: Passage, walk: Walk): Int32Array {
  const blockOfEdge = new Int32Array(index.edgeCount).fill(-1);
  for (let edge = 0; edge < index.edgeCount; edge++) {
    const from = intAt(index.from, edge);
    const to = intAt(index.to, edge);
    if (from === to || !isSet(passage.edges, edge) || !isSet(passage.nodes, from) || !isSet(passage.nodes, to))
      continue;
    const later = intAt(walk.metAs, from) > intAt(walk.metAs, to) ? from : to;
    blockOfEdge[edge] = intAt(walk.parentBlock, later);
  }
  return blockOfEdge;
}

function measureLevels(walk: Walk): Int32Array {
  const levels = new Int32Array(walk.metAs.length);
  // The top node of a block is met before its other nodes, so its level is known when it is read.
  for (let place = 0; place < walk.metCount; place++) {
    const node = intAt(walk.sequence, place);
    const block = intAt(walk.parentBlock, node);
    if (block >= 0) levels[node] = intAt(levels, intAt(walk.topNode, block)) + 1;
  }
  return levels;
}

/**
 * The biconnected blocks of a passable graph and their rooted block-cut forest, ready for queries.
 *
 * A block is a largest set of edges of which any two lie on one closed way that meets no node twice; parallel edges form a
 * block together, and an edge on no such way (a bridge) is a block alone. Self loops and blocked edges are in no block.
 * Two blocks share one node at most, a cut node.
 *
 * The forest is rooted at one node of each component. Going up from a node leads to its parent block, going up from a
 * block leads to its top node. A level counts the blocks between a node and its root.
 */
export interface BiconnectedComponents {
  readonly blockCount: number;
  readonly componentCount: number;
  /** Component of each node, -1 if the node is blocked. */
  readonly componentOfNode: Int32Array;
  /** The block towards the root of each node; -1 at a root and at a blocked node. */
  readonly parentBlockOfNode: Int32Array;
  /** Number of blocks between each node and its root. */
  readonly levelOfNode: Int32Array;
  /** The node of each block that is nearest to the root. */
  readonly topNodeOfBlock: Int32Array;
  /** The block of each edge, -1 for self loops and blocked edges. */
  readonly blockOfEdge: Int32Array;
  /** Edges of block k: `edgesByBlock[edgeOffsets[k]] .. edgesByBlock[edgeOffsets[k + 1] - 1]`, rising. */
  readonly edgeOffsets: Int32Array;
  readonly edgesByBlock: Int32Array;
  /** Nodes of block k without its top node, stored the same way. */
  readonly nodeOffsets: Int32Array;
  readonly nodesByBlock: Int32Array;
}

/** Things sorted by group: the members of group k are `members[offsets[k]] .. members[offsets[k + 1] - 1]`, rising. */
interface Groups {
  readonly offsets: Int32Array;
  readonly members: Int32Array;
}

/**
 * Sorts the numbers 0, 1, 2, ... by a group number that each of them has (counting sort).
 *
 * @param keys the group of each number; -1 leaves it out
 * @param groupCount number of groups; every key is below it
 * @returns the groups, members rising within each; O(numbers + groups)
 *
 * Source: counting sort, H. H. Seward, MIT Report R-232 (1954).
 */
function groupByKey(keys: Int32Array, groupCount: number): Groups {
  const offsets = new Int32Array(groupCount + 1);
  for (let place = 0; place < keys.length; place++) {
    const key = intAt(keys, place);
    if (key >= 0) offsets[key + 1] = intAt(offsets, key + 1) + 1;
  }
  for (let group = 0; group < groupCount; group++) {
    offsets[group + 1] = intAt(offsets, group + 1) + intAt(offsets, group);
  }
  const members = new Int32Array(intAt(offsets, groupCount));
  const next = offsets.slice(0, groupCount);
  for (let place = 0; place < keys.length; place++) {
    const key = intAt(keys, place);
    if (key < 0) continue;
    const slot = intAt(next, key);
    members[slot] = place;
    next[key] = slot + 1;
  }
  return { offsets, members };
}
