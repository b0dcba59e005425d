import { addTo } from "../base/index.ts";
import type { Harness } from "../harness-model/index.ts";
import { pathItems, railNodes, waysThrough, type Item } from "../connectivity/index.ts";

/** A walk over conductors from some nodes: what it met, nearest first, and how it got there. */
export interface NetWalk {
  /** Met nodes, nearest first. */
  readonly nodes: readonly number[];
  /** Met edges, each once. */
  readonly edges: readonly number[];
  /** Edges between a met node and the nearest start. */
  readonly steps: ReadonlyMap<number, number>;
  /** The edge each met node was entered by; none for a start. */
  readonly enteredBy: ReadonlyMap<number, number>;
}

/** Walks the nets of some nodes over wires and mated contacts, breadth first; starts earlier in the list win a tie. */
export function walkNet(harness: Harness, starts: Iterable<number>): NetWalk {
  const { offsets, targets, arcEdges } = harness.index;
  const { passage } = waysThrough(harness, "conductors");
  const steps = new Map<number, number>();
  const enteredBy = new Map<number, number>();
  const edges = new Set<number>();
  for (const start of starts) steps.set(start, 0);
  const nodes = [...steps.keys()];
  // The list grows while it is walked.
  for (const node of nodes) {
    for (let arc = offsets[node] ?? 0; arc < (offsets[node + 1] ?? 0); arc++) {
      const edge = arcEdges[arc] ?? -1;
      if (!passage.edges[edge]) continue;
      edges.add(edge);
      const next = targets[arc] ?? -1;
      if (steps.has(next)) continue;
      steps.set(next, (steps.get(node) ?? 0) + 1);
      enteredBy.set(next, edge);
      nodes.push(next);
    }
  }
  return { nodes, edges: [...edges], steps, enteredBy };
}

/** The way from the nearest start to a met node: nodes and the edges between them. */
export function wayTo(
  harness: Harness,
  walk: NetWalk,
  node: number,
): { nodes: readonly number[]; edges: readonly number[] } {
  const nodes = [node];
  const edges: number[] = [];
  for (let at = node; ;) {
    const edge = walk.enteredBy.get(at);
    if (edge === undefined) return { nodes: nodes.reverse(), edges: edges.reverse() };
    const from = harness.index.from[edge] ?? -1;
    at = from === at ? (harness.index.to[edge] ?? -1) : from;
    edges.push(edge);
    nodes.push(at);
  }
}

/** The things on a way, its first and last point left out. */
export function itemsOnTheWay(harness: Harness, way: ReturnType<typeof wayTo>): readonly Item[] {
  const ends = new Set([way.nodes.at(0) ?? -1, way.nodes.at(-1) ?? -1].map((node) => harness.nodes[node]?.key));
  return pathItems(harness, way).filter((item) => !ends.has(item.id));
}

/** A net on the other side of an element, and the element. */
export interface Across {
  readonly to: number;
  readonly edge: number;
}

/**
 * For each net the nets on the other side of elements that lie outside control units; supply and ground nets of the machine are never gone
 * onto.
 *
 * @param ofNode The net of a node.
 * @param without Kinds of element that are not crossed.
 */
export function netsAcross(
  harness: Harness,
  ofNode: Int32Array,
  without: readonly string[] = [],
): ReadonlyMap<number, readonly Across[]> {
  const rails = railNets(harness, ofNode);
  const across = new Map<number, Across[]>();
  const add = (from: number, to: number, edge: number): void => {
    if (rails.has(to) || from === to) return;
    addTo(across, from, { to, edge });
  };
  harness.edges.forEach((edge, number) => {
    if (edge.kind !== "element" || edge.component.kind === "module" || without.includes(edge.element.kind)) return;
    const from = ofNode[harness.index.from[number] ?? -1] ?? -1;
    const to = ofNode[harness.index.to[number] ?? -1] ?? -1;
    add(from, to, number);
    add(to, from, number);
  });
  return across;
}

/** The nets of the supply and the ground of the machine. */
export function railNets(harness: Harness, ofNode: Int32Array): ReadonlySet<number> {
  const rails = railNodes(harness);
  const nets = new Set<number>();
  ofNode.forEach((net, node) => {
    if (rails.supply[node] || rails.ground[node]) nets.add(net);
  });
  return nets;
}
