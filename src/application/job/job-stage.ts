import type { JobState } from "../../diagnosis/index.ts";

/** Where a job is: checks are being taken, a repair is to be proven, or it is closed. */
export type JobStage = "checking" | "proving" | "closed";

/** What makes checking go on although a repair was written down before. */
const ON: ReadonlySet<string> = new Set(["reading", "prior", "code", "symptom", "complaint", "equipment"]);

/**
 * Where a job is. A repair leads to its proofs; a reading, a code or a changed weight after it leads back to checking.
 *
 * @param state The job.
 */
export function jobStage({ facts, record }: Pick<JobState, "facts" | "record">): JobStage {
  if (facts.closed) return "closed";
  const current = record.events.filter(({ id }) => !facts.undone.has(id));
  const last = current.findLast(({ kind }) => kind === "repair" || ON.has(kind));
  return last?.kind === "repair" ? "proving" : "checking";
}
