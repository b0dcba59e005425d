import { ok, type Result } from "../../base/index.ts";
import type { JobState } from "../../diagnosis/index.ts";
import type { JobEvent } from "../../records/index.ts";
import type { JobRefusal } from "./job-answers.ts";
import { refuse } from "./refuse.ts";

/**
 * Finds an event of a job by its id, or by the number before the point where only one event has it.
 *
 * @param state The job.
 * @param text What was typed.
 */
export function findEvent({ record }: JobState, text: string): Result<JobEvent, JobRefusal> {
  const asked = text.trim();
  const exact = record.events.find(({ id }) => id === asked);
  if (exact) return ok(exact);
  const hits = record.events.filter(({ id }) => id.split(".")[0] === asked);
  const [only, second] = hits;
  if (only && !second) return ok(only);
  const message = second
    ? `"${asked}" fits ${hits.map(({ id }) => id).join(" and ")}.`
    : `The job has no event "${asked}".`;
  const hint = 'The list of events is in "ohmward job show".';
  return refuse("wrong-input", "Nothing was changed.", [{ at: "event", message, hint }]);
}
