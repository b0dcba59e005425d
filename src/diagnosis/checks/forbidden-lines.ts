import type { Harness, NetKind } from "../../model/index.ts";
import { findNet, resolveItem, type Item } from "../../trace/index.ts";

/** Lines on which nothing is suggested, not even to look. */
const FORBIDDEN: ReadonlySet<NetKind> = new Set(["airbag", "high-voltage"]);

/**
 * Whether a thing hangs on an airbag or high-voltage line, so that no check is suggested at all.
 *
 * @param harness The harness.
 * @param item The thing; a connector counts with every line in it.
 * @returns True also for a thing that this build does not have.
 */
export function isForbidden(harness: Harness, item: Item): boolean {
  const thing = resolveItem(harness, item);
  return thing === undefined || hasForbiddenNet(harness, findNet(harness, thing).labels);
}

/** Whether one of the net labels is that of an airbag or high-voltage line. */
export function hasForbiddenNet(harness: Harness, labels: readonly string[]): boolean {
  return labels.some((label) => FORBIDDEN.has(harness.nets.get(label)?.kind ?? "signal"));
}
