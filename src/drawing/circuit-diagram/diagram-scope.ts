import { reach, waysThrough, type Circuit, type Resolved } from "../../connectivity/index.ts";
import type { Component, Harness } from "../../harness-model/index.ts";
import { chooseCircuits, MOST_CIRCUITS, type CoilDepth } from "./choose-circuits.ts";
import { cutFeed, type FeedCut } from "./cut-feed.ts";

/** What of a harness a diagram draws. */
export interface DiagramScope {
  readonly harness: Harness;
  readonly asked: Resolved;
  /** The circuits that are drawn, those asked for first; none where a net is drawn. */
  readonly circuits: readonly Circuit[];
  /** Node numbers that are drawn. */
  readonly nodes: ReadonlySet<number>;
  /** Edge numbers that are drawn. */
  readonly edges: ReadonlySet<number>;
  /** Edges of the circuits that were asked for. */
  readonly strong: ReadonlySet<number>;
  readonly feed: FeedCut | undefined;
  /** Components that are drawn as a box, by id. */
  readonly boxed: ReadonlySet<string>;
  /** Components of those whose inside is drawn in their box. */
  readonly opened: ReadonlySet<string>;
}

/** What is drawn, or why nothing is. */
export type ScopeChoice =
  | { readonly kind: "scope"; readonly scope: DiagramScope }
  | { readonly kind: "choose"; readonly circuits: readonly Circuit[] };

/** What may be left out. */
export interface ScopeOptions {
  readonly wholeFeed: boolean;
  readonly coils: CoilDepth;
}

/**
 * Chooses what a diagram of an item shows: its circuits with the coils of their relays, or, where it has none, its net as far as the first
 * part or joint of each path.
 *
 * @param of The item.
 * @returns What is drawn; or the circuits to choose from where there are too many of them.
 */
export function chooseScope(harness: Harness, of: Resolved, options: ScopeOptions): ScopeChoice {
  const { strong, coils } = chooseCircuits(harness, of, options.coils);
  if (strong.length > MOST_CIRCUITS) return { kind: "choose", circuits: strong };
  if (strong.length === 0) return { kind: "scope", scope: netScope(harness, of) };
  const circuits = [...strong, ...coils];
  const all = { nodes: union(circuits, "nodes"), edges: union(circuits, "edges") };
  const feed = options.wholeFeed ? undefined : cutFeed(harness, { ...all, kept: keptEdges(of, strong) });
  const nodes = new Set([...all.nodes].filter((node) => !feed?.nodes.has(node)));
  const edges = new Set([...all.edges].filter((edge) => !feed?.edges.has(edge)));
  const boxes = boxesOf(harness, circuits, edges);
  const asked = union(strong, "edges");
  return {
    kind: "scope",
    scope: {
      ...{ harness, asked: of, circuits, nodes, edges, feed, ...boxes },
      strong: new Set([...edges].filter((edge) => asked.has(edge))),
    },
  };
}

function union(circuits: readonly Circuit[], what: "nodes" | "edges"): ReadonlySet<number> {
  return new Set(circuits.flatMap((circuit) => [...circuit[what]]));
}

/** The edges asked for by name and those of the loads: a cut never takes them. */
function keptEdges(of: Resolved, strong: readonly Circuit[]): ReadonlySet<number> {
  return new Set([...of.edges, ...strong.flatMap((circuit) => circuit.ownEdges)]);
}

/** Which parts are boxes: control units, parts with more than two ways in, and parts that hang on control units alone. */
function boxesOf(
  harness: Harness,
  circuits: readonly Circuit[],
  edges: ReadonlySet<number>,
): Pick<DiagramScope, "boxed" | "opened"> {
  const boxed = new Set<string>();
  const opened = new Set<string>();
  const parts = new Map<string, Component>();
  for (const number of edges) {
    const edge = harness.edges[number];
    if (edge?.kind === "element") parts.set(edge.component.id, edge.component);
  }
  for (const component of harness.fitted.components.values()) {
    if (component.kind === "module" || component.elements.length === 0) boxed.add(component.id);
  }
  for (const [id, component] of parts) {
    if (boxed.has(id)) continue;
    const own = circuits.filter((circuit) => circuit.component === id);
    const roles = own.flatMap(({ sides }) => sides.map(({ role }) => role));
    const isOnModules = roles.length > 1 && roles.every((role) => role === "module" || role === "outlet");
    if (!isOnModules && !component.elements.some(hasThirdWay)) continue;
    boxed.add(id);
    opened.add(id);
  }
  return { boxed, opened };
}

function hasThirdWay({ kind }: Component["elements"][number]): boolean {
  return kind === "divider" || kind === "driver" || kind === "bias";
}

/** The net of an item: every way from it to the first part or the next joint. */
function netScope(harness: Harness, of: Resolved): DiagramScope {
  const { passage } = waysThrough(harness, "conductors");
  const own = new Set(of.groups.flat());
  const from = [...new Set([...own, ...of.edges.flatMap((edge) => endsOf(harness, edge))])];
  const isWire = of.type === "wire" || of.type === "net" || of.type === "segment";
  const stops = new Uint8Array(harness.nodes.length).fill(1);
  const isStop = (node: number): boolean => isJoint(harness, node) && (isWire || !own.has(node));
  harness.nodes.forEach((_, node) => {
    if (isStop(node)) stops[node] = 0;
  });
  const inner = reach(
    harness.index,
    { edges: passage.edges, nodes: stops },
    from.filter((node) => stops[node] === 1),
  );
  const nodes = new Set<number>(inner.order);
  const edges = new Set<number>(of.edges.filter((edge) => passage.edges[edge] === 1));
  const { offsets, arcEdges, targets } = harness.index;
  for (const node of [...nodes]) {
    for (let arc = offsets[node] ?? 0; arc < (offsets[node + 1] ?? 0); arc++) {
      const edge = arcEdges[arc] ?? -1;
      if (passage.edges[edge] !== 1) continue;
      edges.add(edge);
      nodes.add(targets[arc] ?? -1);
    }
  }
  for (const edge of edges) for (const end of endsOf(harness, edge)) nodes.add(end);
  return {
    ...{ harness, asked: of, circuits: [], nodes, edges, strong: edges, feed: undefined },
    boxed: new Set(harness.fitted.components.keys()),
    opened: new Set(),
  };
}

function endsOf(harness: Harness, edge: number): readonly number[] {
  return [harness.index.from[edge] ?? -1, harness.index.to[edge] ?? -1];
}

function isJoint(harness: Harness, node: number): boolean {
  const kind = harness.nodes[node]?.kind;
  return kind === "splice" || kind === "stud";
}
