import type { BiconnectedComponents } from "./find-biconnected-components.ts";
import { checkNodePair, intAt, type NodePair } from "./passage.ts";

/** The part of the graph on any simple path between two nodes. */
export interface BetweenFound {
  readonly kind: "found";
  /** Every node on any simple path, each once: block after block from `from` to `to`, no order promised inside a block. */
  readonly nodes: Int32Array;
  /** Every edge on any simple path, each once: block after block from `from` to `to`, rising inside a block. */
  readonly edges: Int32Array;
  /** The nodes that every path passes, in path order; the first is `from`, the last `to`. */
  readonly mustPassNodes: Int32Array;
  /** The edges that every path passes, in path order. */
  readonly mustPassEdges: Int32Array;
  /** The blocks on the way, in path order: block i joins `mustPassNodes[i]` to `mustPassNodes[i + 1]`. */
  readonly blockPath: Int32Array;
}

/** No path; the passable component that each of the two nodes is in, -1 if that node itself is blocked. */
export interface BetweenApart {
  readonly kind: "apart";
  readonly fromComponent: number;
  readonly toComponent: number;
}

/** The answer of {@link betweenNodes}. */
export type Between = BetweenFound | BetweenApart;

/** The way through the block-cut tree. */
interface TreePath {
  readonly nodes: Int32Array;
  readonly blocks: Int32Array;
  /** The node of the way's blocks that is nearest to the root. */
  readonly apex: number;
}

/**
 * What lies between two nodes: all that is on any simple path (a path that passes no node twice), and what every path must pass.
 *
 * Any two nodes of a block are joined by a simple path through any third node or edge of it, so the answer is all of each block on the way
 * through the block-cut tree. The number of paths may be exponential; it is never counted.
 *
 * Result by case: `found` with the parts; the same node twice gives that node alone and no edges; `apart` if one of the nodes is blocked or
 * they are in different components (`firstBlocked` then says where the cut is). A bridge is in `mustPassEdges`; of two parallel wires
 * neither is. Self loops lie on no simple path. Asking the other way round gives the same sets, with the must-pass lists and the blocks
 * reversed.
 *
 * @param blocks the answer of `findBiconnectedComponents`; the same passage holds
 * @returns the part between them, or that they are apart
 * @throws RangeError if a node is not in the graph Cost: the length of the way through the tree plus the size of the answer; nothing of the
 *   size of the graph.
 *
 * Source: F. Harary, G. Prins, "The block-cutpoint-tree of a graph", Publ. Math. Debrecen 13 (1966) 103-107; the path through a third node
 * follows from K. Menger, "Zur allgemeinen Kurventheorie", Fund. Math. 10 (1927) 96-115.
 */
export function betweenNodes(blocks: BiconnectedComponents, pair: NodePair): Between {
  checkNodePair(blocks.componentOfNode.length, pair);
  const fromComponent = intAt(blocks.componentOfNode, pair.from);
  const toComponent = intAt(blocks.componentOfNode, pair.to);
  if (fromComponent < 0 || fromComponent !== toComponent) return { kind: "apart", fromComponent, toComponent };
  const path = treePath(blocks, pair);
  return {
    kind: "found",
    nodes: collectNodes(blocks, path),
    edges: collectEdges(blocks, path),
    mustPassNodes: path.nodes,
    mustPassEdges: collectBridges(blocks, path),
    blockPath: path.blocks,
  };
}

function treePath(blocks: BiconnectedComponents, pair: NodePair): TreePath {
  const { parentBlockOfNode, levelOfNode, topNodeOfBlock } = blocks;
  const nodesFrom = [pair.from];
  const nodesTo = [pair.to];
  const blocksFrom: number[] = [];
  const blocksTo: number[] = [];
  let left = pair.from;
  let right = pair.to;
  while (left !== right) {
    const leftBlock = intAt(parentBlockOfNode, left);
    const rightBlock = intAt(parentBlockOfNode, right);
    if (leftBlock === rightBlock) {
      // Both climbs end inside one block, which they share; neither has reached its top node.
      blocksFrom.push(leftBlock);
      const apex = intAt(topNodeOfBlock, leftBlock);
      return joinEnds([nodesFrom, nodesTo.reverse()], [blocksFrom, blocksTo.reverse()], apex);
    }
    // The one further from the root climbs; at the same level either may, since neither is above the other.
    if (intAt(levelOfNode, left) >= intAt(levelOfNode, right)) {
      blocksFrom.push(leftBlock);
      nodesFrom.push((left = intAt(topNodeOfBlock, leftBlock)));
    } else {
      blocksTo.push(rightBlock);
      nodesTo.push((right = intAt(topNodeOfBlock, rightBlock)));
    }
  }
  nodesTo.pop();
  return joinEnds([nodesFrom, nodesTo.reverse()], [blocksFrom, blocksTo.reverse()], left);
}

function joinEnds(nodes: readonly number[][], blocks: readonly number[][], apex: number): TreePath {
  return { nodes: Int32Array.from(nodes.flat()), blocks: Int32Array.from(blocks.flat()), apex };
}

function collectNodes(blocks: BiconnectedComponents, path: TreePath): Int32Array {
  const { nodeOffsets, nodesByBlock } = blocks;
  let size = 1;
  for (const block of path.blocks) size += intAt(nodeOffsets, block + 1) - intAt(nodeOffsets, block);
  const nodes = new Int32Array(size);
  let filled = 0;
  let apexPlaced = false;
  for (const block of path.blocks) {
    // Blocks are stored without their top node, so the apex is the one node that no block of the way brings along.
    if (!apexPlaced && intAt(blocks.topNodeOfBlock, block) === path.apex) {
      nodes[filled++] = path.apex;
      apexPlaced = true;
    }
    const end = intAt(nodeOffsets, block + 1);
    for (let place = intAt(nodeOffsets, block); place < end; place++) nodes[filled++] = intAt(nodesByBlock, place);
  }
  if (!apexPlaced) nodes[filled] = path.apex;
  return nodes;
}

function collectEdges(blocks: BiconnectedComponents, path: TreePath): Int32Array {
  const { edgeOffsets, edgesByBlock } = blocks;
  let size = 0;
  for (const block of path.blocks) size += intAt(edgeOffsets, block + 1) - intAt(edgeOffsets, block);
  const edges = new Int32Array(size);
  let filled = 0;
  for (const block of path.blocks) {
    const end = intAt(edgeOffsets, block + 1);
    for (let place = intAt(edgeOffsets, block); place < end; place++) edges[filled++] = intAt(edgesByBlock, place);
  }
  return edges;
}

function collectBridges(blocks: BiconnectedComponents, path: TreePath): Int32Array {
  const bridges: number[] = [];
  for (const block of path.blocks) {
    const start = intAt(blocks.edgeOffsets, block);
    if (intAt(blocks.edgeOffsets, block + 1) - start === 1) bridges.push(intAt(blocks.edgesByBlock, start));
  }
  return Int32Array.from(bridges);
}
