import { describeCheck, type JobState } from "../../diagnosis/index.ts";
import type { JobReplies } from "./job-messages.ts";

/** Checks that are listed at once. */
const MOST = 30;

/**
 * Finds permitted checks whose points, state or sort hold every word.
 *
 * @param state The job.
 * @param words Words, parted by spaces; upper and lower case are the same.
 * @returns The first checks that fit, and how many fit in all.
 */
export function searchChecks(state: JobState, words: string): JobReplies["search"] {
  const { checks } = state.workup;
  const wanted = words
    .toLowerCase()
    .split(/\s+/u)
    .filter((word) => word !== "");
  const done = new Set(state.facts.readings.map(({ check }) => check.key));
  const labels = new Map<string, string>(
    state.harness.document.states.map(({ id, label }) => [id, label.toLowerCase()]),
  );
  const fitting = [...checks.values()].filter(({ key, need }) => {
    const text = `${key.toLowerCase()} ${labels.get(need.state) ?? ""}`;
    return wanted.every((word) => text.includes(word));
  });
  const found = fitting.slice(0, MOST).map((check) => {
    const { key, title, condition, unplugged } = describeCheck(state.harness, check);
    const off = unplugged.length > 0 ? `, ${unplugged.join(", ")} unplugged` : "";
    return { key, title, condition: `${condition}${off}`, isDone: done.has(key) };
  });
  return { found, count: fitting.length };
}
