import type { JobState } from "../../diagnosis/index.ts";

/** Where a job is: tests are taken, a repair is to be verified, or it is closed. */
export type JobStage = "checking" | "proving" | "closed";

/** What makes testing continue although a repair was recorded before. */
const ON: ReadonlySet<string> = new Set(["reading", "prior", "code", "symptom", "complaint", "equipment"]);

/**
 * Where a job is. A repair leads to its verification; a reading, a trouble code or a changed starting probability after it leads back to testing.
 *
 * @param state The job.
 */
export function jobStage({ facts, record }: Pick<JobState, "facts" | "record">): JobStage {
  if (facts.closed) return "closed";
  const current = record.events.filter(({ id }) => !facts.undone.has(id));
  const last = current.findLast(({ kind }) => kind === "repair" || ON.has(kind));
  return last?.kind === "repair" ? "proving" : "checking";
}
