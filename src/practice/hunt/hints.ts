import { beliefAfter, firstBelief, jobOfTask, type Belief } from "../score/hunt-belief.ts";
import { suggestNext } from "../score/suggest.ts";
import type { HuntState, Seen } from "./hunt-state.ts";

/** Points a hint of each level costs. Judgement; no source. */
export const HINT_POINTS = { 1: 1, 2: 2, 3: 4 } as const;
/** Hints of one level in a hunt. */
const MOST_OF_LEVEL = 3;

/**
 * Gives a hint: level 1 what to ask oneself, level 2 where to look next, level 3 the check itself. Hints fade: tasks of level 2 give no
 * check any more, tasks of level 3 only the question; and each level answers three times at most.
 *
 * Source: whole problems, hints on request at several depths that fade are the method of coached practice (A. Lesgold and others, ERIC
 * ED299450, 1988); the numbers here are judgement.
 */
export function giveHint(
  hunt: HuntState,
  level: 1 | 2 | 3,
): { readonly seen: Seen; readonly change?: Partial<HuntState> } {
  const deepest = 4 - hunt.task.level;
  if (level > deepest)
    return { seen: { kind: "not-ready", text: `At this level of task hints go down to level ${deepest}.` } };
  const used = hunt.steps.filter(({ seen }) => seen.kind === "hint" && seen.level === level).length;
  if (used >= MOST_OF_LEVEL)
    return { seen: { kind: "not-ready", text: "There are no more hints of this level in this hunt." } };
  const text = hintText(hunt, level);
  const points = HINT_POINTS[level];
  return { seen: { kind: "hint", level, text, points }, change: { hintPoints: hunt.hintPoints + points } };
}

function hintText(hunt: HuntState, level: 1 | 2 | 3): string {
  const belief = beliefOf(hunt);
  if (!belief) return "On these circuits no check is suggested.";
  const next = suggestNext(belief, hunt.setup);
  if (next.kind !== "check") {
    if (level === 1)
      return "Look at what you have found: is there a check left that would tell you more than a repair?";
    return next.kind === "repair" || next.kind === "repair-in-order"
      ? "What was found is enough to name a cause."
      : "What was found fits no single fault: take the last readings again.";
  }
  const { check } = next;
  if (level === 1) {
    const isMeter = check.kind === "volts" || check.kind === "ohms";
    return isMeter
      ? "What is common to everything that fails, and in none of what works? Choose a point that parts it in halves and is quickly reached."
      : "Before the meter: is there something that can be seen, moved or felt where the suspects lie?";
  }
  const where = check.points.join(" and ");
  if (level === 2) return `Next: something at ${check.points[0] ?? where}. Machine: ${check.condition.toLowerCase()}.`;
  const off = check.unplugged.length > 0 ? ` with ${check.unplugged.join(", ")} open` : "";
  return `${check.title}, machine: ${check.condition.toLowerCase()}${off}. Expected if all is well: ${check.expected}.`;
}

function beliefOf(hunt: HuntState): Belief | undefined {
  const job = jobOfTask(hunt.harness, hunt.task);
  return job.ok ? hunt.steps.reduce(beliefAfter, firstBelief(job.value)) : undefined;
}
