import type { Situation } from "../../electrics/index.ts";
import type { Harness } from "../../model/index.ts";

/** Situations that are kept for a harness, each with all that was worked out for it. */
const MOST_KEPT = 24;

// What is worked out for a situation is found again by the very same object, so equal situations are made one. Few are kept: each
// holds solved circuits.
const known = new WeakMap<Harness, Map<string, Situation>>();

/**
 * The one object for a situation: asked for again with an equal one, what was worked out for it is found again.
 *
 * @param harness The machine in one build.
 * @param situation The situation.
 */
export function sharedSituation(harness: Harness, situation: Situation): Situation {
  let kept = known.get(harness);
  if (!kept) {
    kept = new Map();
    known.set(harness, kept);
  }
  const key = JSON.stringify(situation);
  const shared = kept.get(key) ?? situation;
  // Put back at the end, so that the one not asked for longest goes first.
  kept.delete(key);
  kept.set(key, shared);
  const [oldest] = kept.keys();
  if (kept.size > MOST_KEPT && oldest !== undefined) kept.delete(oldest);
  return shared;
}
