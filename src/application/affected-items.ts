import type { Harness } from "../harness-model/index.ts";
import { describeItem, resolveItem, waysThrough, type Item, type Resolved } from "../connectivity/index.ts";

/** What the things of an answer touch: where they lie, what they belong to, which nets they hang on. */
export interface AffectedItems {
  readonly zones: ReadonlySet<string>;
  readonly components: ReadonlySet<string>;
  readonly nets: ReadonlySet<string>;
  /** The points of the graph that the items are or end at, and their wires. */
  readonly nodes: ReadonlySet<number>;
  readonly edges: ReadonlySet<number>;
}

/**
 * Gathers zones, components and net labels that things touch. A net label counts wherever its wires are joined by conductors alone.
 *
 * @param harness The harness.
 * @param items Things of an answer; a resolved thing counts with all its points.
 */
export function affectedBy(harness: Harness, items: Iterable<Item | Resolved>): AffectedItems {
  const zones = new Set<string>();
  const components = new Set<string>();
  const nets = new Set<string>();
  const nodes = new Set<number>();
  const edges = new Set<number>();
  for (const item of items) {
    const facts = describeItem(harness, item);
    if (facts.zone !== undefined) zones.add(facts.zone);
    if (facts.component !== undefined) components.add(facts.component);
    if (item.type === "component") components.add(item.id);
    if (item.type === "zone") zones.add(item.id);
    if (item.type === "net") nets.add(item.id);
    for (const segment of facts.route ?? []) {
      const zone = harness.segments.get(segment)?.zone;
      if (zone !== undefined) zones.add(zone);
    }
    for (const node of nodesOf(harness, item)) {
      nodes.add(node);
      for (const label of netLabels(harness, node)) nets.add(label);
    }
    const edge = item.type === "wire" ? harness.edgeNumbers.get(item.id) : undefined;
    if (edge !== undefined) edges.add(edge);
  }
  return { zones, components, nets, nodes, edges };
}

/** The nodes of a thing that is one point or one edge; none for a thing that is many unless it comes with its points. */
function nodesOf(harness: Harness, item: Item | Resolved): readonly number[] {
  if ("groups" in item) return item.groups.flat();
  if (item.type === "net") return resolveItem(harness, item)?.groups.flat() ?? [];
  const node = harness.nodeNumbers.get(item.id);
  if (node !== undefined) return [node];
  const isEdge = item.type === "wire" || item.type === "contact" || item.type === "element";
  const keys = isEdge ? [item.id, `${item.id}.top`, `${item.id}.bottom`] : [];
  return keys
    .flatMap((key) => harness.edgeNumbers.get(key) ?? [])
    .flatMap((edge) => [harness.index.from[edge] ?? -1, harness.index.to[edge] ?? -1]);
}

// Worked out once a harness; a harness never changes.
const known = new WeakMap<Harness, ReadonlyMap<number, ReadonlySet<string>>>();

function netLabels(harness: Harness, node: number): Iterable<string> {
  const { ofNode } = waysThrough(harness, "conductors").components;
  let labels = known.get(harness);
  if (!labels) {
    const fresh = new Map<number, Set<string>>();
    harness.edges.forEach((edge, number) => {
      if (edge.kind !== "wire" || edge.wire.net === undefined) return;
      const part = ofNode[harness.index.from[number] ?? -1] ?? -1;
      const before = fresh.get(part);
      if (before) before.add(edge.wire.net);
      else fresh.set(part, new Set([edge.wire.net]));
    });
    known.set(harness, fresh);
    labels = fresh;
  }
  return labels.get(ofNode[node] ?? -1) ?? [];
}
