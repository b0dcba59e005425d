import type { OperatingConditions } from "../../simulation/index.ts";
import type { Harness } from "../../harness-model/index.ts";

/** Situations that are kept for a harness, each with all that was worked out for it. */
const MOST_KEPT = 24;

// What is worked out for a situation is found again by the very same object, so equal situations are made one. Few are kept: each
// holds solved circuits.
const known = new WeakMap<Harness, Map<string, OperatingConditions>>();

/**
 * The one object for a situation: asked for again with an equal one, what was worked out for it is found again.
 *
 * @param harness The machine in one build.
 * @param operatingConditions The situation.
 */
export function sharedConditions(harness: Harness, operatingConditions: OperatingConditions): OperatingConditions {
  let kept = known.get(harness);
  if (!kept) {
    kept = new Map();
    known.set(harness, kept);
  }
  const key = JSON.stringify(operatingConditions);
  const shared = kept.get(key) ?? operatingConditions;
  // Put back at the end, so that the one not asked for longest goes first.
  kept.delete(key);
  kept.set(key, shared);
  const [oldest] = kept.keys();
  if (kept.size > MOST_KEPT && oldest !== undefined) kept.delete(oldest);
  return shared;
}
