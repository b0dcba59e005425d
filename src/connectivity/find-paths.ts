import type { Harness } from "../harness-model/index.ts";
import {
  betweenNodes,
  firstBlocked,
  shortestPath,
  shortestSimplePaths,
  type BetweenFound,
  type NodePair,
  type Passage,
  type Path,
} from "./graph/index.ts";
import { collectItems, edgeItem, itemKey, jointId, nodeItem, pathItems, type Item } from "./item.ts";
import { railNodes, THROUGH, waysThrough, type Through, type PassageFacts } from "./passages.ts";
import type { Resolved } from "./resolve.ts";

/** Path between two points. */
export interface FoundPath {
  readonly kind: "found";
  /** How far the trace had to go to find a path. */
  readonly through: Through;
  /** The shortest path, in order from the first thing to the second. */
  readonly path: readonly Item[];
  /** The numbers of that path, for drawing. */
  readonly steps: Path;
  /** All that lies on any simple path. */
  readonly between: readonly Item[];
  /** What every path passes, in path order. */
  readonly mustPass: readonly Item[];
  /** Other paths, shortest first; `alternativesComplete` says that there are no more. */
  readonly alternatives: readonly (readonly Item[])[];
  readonly alternativesComplete: boolean;
  /** Where the part between has other wires leading away. */
  readonly branches: readonly Branch[];
  /** Numbers of all nodes and edges between. */
  readonly nodes: Iterable<number>;
  readonly edges: Iterable<number>;
}

/** There is no path, and where it is cut. */
interface NoPathFound {
  readonly kind: "no-path";
  readonly through: Through;
  readonly cut: Cut;
}

/** The answer of {@link findPaths}. */
export type FoundPaths = FoundPath | NoPathFound;

/** How to ask. */
export interface BetweenOptions {
  /** How far the path may go; if not said, the narrowest width that finds a path is taken. */
  readonly through?: Through;
  /** How many other paths to list, 4 if not said. */
  readonly alternatives?: number;
}

/** Joined pairs of terminals kept at most: a connector of 64 cavities against another has 4,096. */
const MOST_PAIRS = 4096;
/** How much the search for further paths may try in one pair before it says that there may be more. */
const MOST_EXPANSIONS = 200_000;

/**
 * Path between two points: everything on any simple path, what every path must pass, branches, and a few whole paths.
 *
 * A thing with several points (component, connector, code) is asked from each of its points to each of the other's, and the answers are
 * joined: `path` is their union, `mustPass` what is common to all that have a path. A contact counts as the mated pair, a wire or
 * element as the whole of it.
 *
 * @param options Width of the trace and number of other paths.
 * @returns What was found at the narrowest width that joins them, or where it is cut. One thing asked against itself has no path.
 */
export function findPaths(
  harness: Harness,
  ends: readonly [Resolved, Resolved],
  options: BetweenOptions = {},
): FoundPaths {
  const widths = options.through === undefined ? THROUGH : [options.through];
  for (const through of widths) {
    const rails = railsOf(harness, ends);
    const ways = waysThrough(harness, through, rails);
    const found = findPairs(ways, ends);
    if (found.length > 0) return describe(harness, { ways, through, found, alternatives: options.alternatives ?? 4 });
  }
  const through = widths.at(-1) ?? "control-units";
  return { kind: "no-path", through, cut: whereCut(harness, ends, waysThrough(harness, through).passage) };
}

/** A rail is run through only where an end of the question lies on it. */
function railsOf(harness: Harness, ends: readonly [Resolved, Resolved]): { supply: boolean; ground: boolean } {
  const rails = railNodes(harness);
  const nodes = ends.flatMap((end) => end.groups.flat());
  return {
    supply: nodes.some((node) => rails.supply[node] === 1),
    ground: nodes.some((node) => rails.ground[node] === 1),
  };
}

interface FoundPair extends BetweenFound {
  readonly pair: NodePair;
}

function findPairs(ways: PassageFacts, [first, second]: readonly [Resolved, Resolved]): readonly FoundPair[] {
  const found: FoundPair[] = [];
  for (const fromGroup of first.groups) {
    for (const toGroup of second.groups) {
      const best = bestOfGroups(ways, fromGroup, toGroup);
      if (best) found.push(best);
      // Only pairs that are joined count: no joint may go unseen because many others were looked at before it.
      if (found.length === MOST_PAIRS) return found;
    }
  }
  return found;
}

/**
 * The halves of a contact and the ends of a wire are one point to the person asking; the pair of nodes with most that every path must
 * pass is the one that holds both things whole.
 */
function bestOfGroups(
  ways: PassageFacts,
  fromGroup: readonly number[],
  toGroup: readonly number[],
): FoundPair | undefined {
  const { ofNode } = ways.components;
  let best: FoundPair | undefined;
  for (const from of fromGroup) {
    for (const to of toGroup) {
      const part = ofNode[from] ?? -1;
      if (from === to || part < 0 || part !== ofNode[to]) continue;
      const pair = { from, to };
      const between = betweenNodes(ways.blocks, pair);
      if (between.kind === "found" && (!best || between.mustPassNodes.length > best.mustPassNodes.length))
        best = { ...between, pair };
    }
  }
  return best;
}

interface FoundAll {
  readonly ways: PassageFacts;
  readonly through: Through;
  readonly found: readonly FoundPair[];
  readonly alternatives: number;
}

/**
 * The answer as an object whose larger parts are worked out when they are first read: what lies between two far ends may be most of a
 * machine, and who only wants the path should not wait for it.
 */
function describe(harness: Harness, { ways, through, found, alternatives }: FoundAll): FoundPath {
  const [only] = found;
  const isOne = found.length === 1 && only !== undefined;
  const nodes = isOne ? only.nodes : new Set(found.flatMap((part) => [...part.nodes]));
  const edges = isOne ? only.edges : new Set(found.flatMap((part) => [...part.edges]));
  const first = shortestOf(harness, ways, found);
  const paths = once(() => walkPaths(harness, ways, { found, limit: alternatives + 1 }));
  const between = once(() => collectItems(harness, { nodes, edges }));
  const mustPass = once(() => mustPassItems(harness, found));
  const branches = once(() => findBranches(harness, { nodes, edges: new Set(edges) }));
  return {
    kind: "found",
    through,
    path: pathItems(harness, first),
    steps: first,
    nodes,
    edges,
    get between() {
      return between();
    },
    get mustPass() {
      return mustPass();
    },
    get alternatives() {
      return paths().others.map((path) => pathItems(harness, path));
    },
    get alternativesComplete() {
      return paths().isComplete;
    },
    get branches() {
      return branches();
    },
  };
}

function once<Value>(work: () => Value): () => Value {
  let done: { readonly value: Value } | undefined;
  return () => (done ??= { value: work() }).value;
}

function shortestOf(harness: Harness, ways: PassageFacts, found: readonly FoundPair[]): Path {
  let best: Path = { nodes: [], edges: [] };
  for (const part of found) {
    const path = shortestIn(harness, ways, part);
    if (path && (best.nodes.length === 0 || path.edges.length < best.edges.length)) best = path;
  }
  return best;
}

/** A small part is cut out of the graph first; a large one is walked where it lies, which costs as much as the graph is large. */
function shortestIn({ index }: Harness, { passage }: PassageFacts, { pair, edges }: FoundPair): Path | undefined {
  const isSmall = edges.length < index.edgeCount / 8;
  if (isSmall) return shortestSimplePaths(index, passage, { ...pair, limit: 1, edges }).paths[0];
  const path = shortestPath(index, passage, pair);
  return path.kind === "found" ? path : undefined;
}

/** The paths beside the shortest one; what lies between is where to look for them. */
function walkPaths(
  harness: Harness,
  ways: PassageFacts,
  { found, limit }: { readonly found: readonly FoundPair[]; readonly limit: number },
): { others: readonly Path[]; isComplete: boolean } {
  const perPair = found.map((part) =>
    shortestSimplePaths(harness.index, ways.passage, {
      ...part.pair,
      limit,
      edges: part.edges,
      maxExpansions: MOST_EXPANSIONS,
    }),
  );
  const paths = perPair.flatMap((answer) => answer.paths).sort((a, b) => a.edges.length - b.edges.length);
  return {
    others: paths.slice(1, limit),
    isComplete: paths.length <= limit && perPair.every((answer) => answer.complete),
  };
}

function mustPassItems(harness: Harness, found: readonly FoundPair[]): readonly Item[] {
  const lists = found.map((part) => inPathOrder(harness, part));
  const [first = [], ...rest] = lists;
  const others = rest.map((list) => new Set(list.map(itemKey)));
  return first.filter((item) => others.every((keys) => keys.has(itemKey(item))));
}

/** Nodes and edges that every path passes, woven in path order, as items. */
function inPathOrder(harness: Harness, part: FoundPair): readonly Item[] {
  const nodes = [...part.mustPassNodes];
  const { from, to } = harness.index;
  let next = 0;
  // Both lists are in path order, so each bridge is met before the one after it.
  const edges = nodes.map((node, at) => {
    const bridge = part.mustPassEdges[next] ?? -1;
    const far = nodes[at + 1];
    const joins = (from[bridge] === node && to[bridge] === far) || (to[bridge] === node && from[bridge] === far);
    if (joins) next++;
    return joins ? bridge : -1;
  });
  return pathItems(harness, { nodes, edges });
}

/**
 * Where a path is cut: at an element that this width of trace does not run through, at the supply or the ground, or nowhere in
 * particular because nothing joins the two on this build.
 */
export type Cut =
  | { readonly kind: "element"; readonly at: Item }
  | { readonly kind: "rail"; readonly at: Item; readonly rail: "supply" | "ground" }
  | { readonly kind: "apart" }
  | { readonly kind: "same" };

/** Joined pairs of points looked at at most. */
const MOST_TRIED = 4096;

/**
 * Says where the way between two things is cut.
 *
 * @param narrow The passage that found no path.
 */
function whereCut(harness: Harness, ends: readonly [Resolved, Resolved], narrow: Passage): Cut {
  const { passage: wider, components } = waysThrough(harness, "control-units");
  const [first, second] = ends.map((end) => end.groups.flat());
  if (!first || !second) return { kind: "apart" };
  if (first.some((node) => second.includes(node))) return { kind: "same" };
  let tried = 0;
  for (const from of first) {
    for (const to of second) {
      const part = components.ofNode[from] ?? -1;
      if (part < 0 || part !== components.ofNode[to] || ++tried > MOST_TRIED) continue;
      const cut = firstBlocked(harness.index, { narrow, wider }, { from, to });
      if (cut.kind !== "blocked") continue;
      const edge = cut.what === "edge" ? harness.edges[cut.number] : undefined;
      if (edge) return { kind: "element", at: edgeItem(edge) };
      const node = harness.nodes[cut.number];
      if (node)
        return { kind: "rail", at: nodeItem(node), rail: railNodes(harness).ground[cut.number] ? "ground" : "supply" };
    }
  }
  return { kind: "apart" };
}

/** A place where a part of the harness has other wires leading away from it. */
interface Branch {
  readonly at: Item;
  /** The wires that lead away, each with the thing at its far end. */
  readonly ways: readonly { readonly wire: Item; readonly to: Item }[];
}

/** Where a part of the harness branches: its splices, studs and contacts with wires that do not belong to the part. */
function findBranches(
  harness: Harness,
  part: { readonly nodes: Iterable<number>; readonly edges: ReadonlySet<number> },
): readonly Branch[] {
  const branches: Branch[] = [];
  const { offsets, targets, arcEdges } = harness.index;
  for (const number of part.nodes) {
    const node = harness.nodes[number];
    if (!node || node.kind === "inner") continue;
    const ways: { wire: Item; to: Item }[] = [];
    for (let arc = offsets[number] ?? 0; arc < (offsets[number + 1] ?? 0); arc++) {
      const edge = harness.edges[arcEdges[arc] ?? -1];
      const far = harness.nodes[targets[arc] ?? -1];
      if (!far || edge?.kind !== "wire" || part.edges.has(arcEdges[arc] ?? -1)) continue;
      const to = far.kind === "contact" ? ({ type: "contact", id: jointId(far) } as const) : nodeItem(far);
      ways.push({ wire: edgeItem(edge), to });
    }
    if (ways.length > 0)
      branches.push({ at: node.kind === "contact" ? { type: "contact", id: jointId(node) } : nodeItem(node), ways });
  }
  return branches;
}
