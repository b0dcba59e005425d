import { suspects, type JobState, type SuspectShare } from "../../diagnosis/index.ts";

/** The named suspects of a job, most likely first; "something else" is left out. */
export function suspectsOf(job: JobState): readonly SuspectShare[] {
  return suspects(job).filter(({ group }) => group >= 0);
}
