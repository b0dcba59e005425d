import type { Harness } from "../model/index.ts";
import { resolveItem, type Item } from "../trace/index.ts";
import type { Guard } from "./find-guards.ts";
import { safetyIndex } from "./safety-index.ts";

/**
 * Why some nodes and wires count as airbag or high voltage, so that no check is suggested there, not even to look.
 *
 * @param harness The harness.
 * @param at Node and edge numbers.
 * @returns Each reason once; empty if they do not count as such. A line of which nothing is known counts on a machine that has such lines.
 */
export function guardsOf(
  harness: Harness,
  at: { readonly nodes: Iterable<number>; readonly edges?: Iterable<number> },
): readonly Guard[] {
  const { guardsAt, doubtAt } = safetyIndex(harness);
  const guards = new Map<string, Guard>();
  for (const node of at.nodes)
    for (const guard of [...guardsAt({ node }), ...doubtAt(node)]) guards.set(`${guard.kind} ${guard.because}`, guard);
  for (const edge of at.edges ?? [])
    for (const guard of guardsAt({ edge })) guards.set(`${guard.kind} ${guard.because}`, guard);
  return [...guards.values()];
}

/**
 * Whether something hangs on an airbag or high-voltage line, so that no check is suggested at all.
 *
 * @param harness The harness.
 * @param item The item; a connector counts with every line in it.
 * @returns True also for what this build does not have.
 */
export function isGuarded(harness: Harness, item: Item): boolean {
  const found = resolveItem(harness, item);
  return found === undefined || guardsOf(harness, { nodes: found.groups.flat(), edges: found.edges }).length > 0;
}
