import type { Harness, NetKind } from "../../model/index.ts";
import { resolveItem, waysThrough, type Item } from "../../trace/index.ts";

/** Lines on which nothing is suggested, not even to look. */
const FORBIDDEN: ReadonlySet<NetKind> = new Set(["airbag", "high-voltage"]);

// A harness never changes, so neither does which of its nets are forbidden.
const known = new WeakMap<Harness, ReadonlySet<number>>();

/** The nets of airbag and high-voltage lines, by the number that conductors alone give them. */
function forbiddenNets(harness: Harness): ReadonlySet<number> {
  const before = known.get(harness);
  if (before) return before;
  const { ofNode } = waysThrough(harness, "conductors").components;
  const nets = new Set<number>();
  harness.edges.forEach((edge, number) => {
    if (edge.kind !== "wire" || edge.wire.net === undefined) return;
    const kind = harness.nets.get(edge.wire.net)?.kind;
    if (kind !== undefined && FORBIDDEN.has(kind)) nets.add(ofNode[harness.index.from[number] ?? -1] ?? -1);
  });
  known.set(harness, nets);
  return nets;
}

/**
 * Whether a thing hangs on an airbag or high-voltage line, so that no check is suggested at all.
 *
 * @param harness The harness.
 * @param item The thing; a connector counts with every line in it.
 * @returns True also for a thing that this build does not have.
 */
export function isForbidden(harness: Harness, item: Item): boolean {
  const thing = resolveItem(harness, item);
  return thing === undefined || touchesForbidden(harness, thing.groups.flat());
}

/** Whether any of some nodes lies on an airbag or high-voltage line. */
export function touchesForbidden(harness: Harness, nodes: Iterable<number>): boolean {
  const nets = forbiddenNets(harness);
  if (nets.size === 0) return false;
  const { ofNode } = waysThrough(harness, "conductors").components;
  for (const node of nodes) if (nets.has(ofNode[node] ?? -1)) return true;
  return false;
}
