import { faultyShare, isMeterCheck, type HandCheck, type JobState } from "../../diagnosis/index.ts";
import type { HuntState } from "../hunt/hunt-state.ts";

/** Most places looked at or moved in a search, and the least chance that the next one shows anything. Judgement, no source. */
const MOST_PLACES = 25;
const LEAST_CHANCE = 0.005;

/** Where a path stands, with a number of checks taken. */
export interface OnPath {
  readonly hunt: HuntState;
  readonly job: JobState;
  readonly checks: number;
}

/**
 * Looks at, moves, pulls and exchanges one place after another, each time the one that most likely shows something for its minutes, until
 * one does: what is left to do where readings lead no further.
 *
 * @param start Where the path stands.
 * @param take Does a check of the job in the hunt.
 * @returns The path after it, and whether something showed.
 */
export function searchByHand(
  start: OnPath,
  take: (hunt: HuntState, job: JobState, check: HandCheck) => { readonly hunt: HuntState; readonly job: JobState },
): OnPath & { readonly isFound: boolean } {
  let on = start;
  while (on.checks < start.checks + MOST_PLACES) {
    const check = nextPlace(on.job);
    if (!check) break;
    on = { ...take(on.hunt, on.job, check), checks: on.checks + 1 };
    const seen = on.hunt.steps.at(-1)?.seen;
    if (seen?.kind === "outcome" && !seen.isHealthy) return { ...on, isFound: true };
  }
  return { ...on, isFound: false };
}

/** The check without a meter, not done yet, that most likely shows something for each minute of it. */
function nextPlace({ workup, belief, facts }: JobState): HandCheck | undefined {
  const done = new Set(facts.readings.map(({ check }) => check.key));
  let best: { readonly check: HandCheck; readonly rate: number } | undefined;
  for (const check of workup.checks.values()) {
    if (isMeterCheck(check) || done.has(check.key)) continue;
    const alarm = faultyShare(check, undefined);
    const chance = workup.hypotheses.reduce(
      (sum, hypothesis, at) => sum + (belief[at] ?? 0) * (faultyShare(check, hypothesis) - alarm),
      0,
    );
    const rate = chance / check.need.places.reduce((sum, { minutes }) => sum + minutes, check.minutes);
    if (chance >= LEAST_CHANCE && (!best || rate > best.rate)) best = { check, rate };
  }
  return best?.check;
}
