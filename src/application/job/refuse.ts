import { err, type Result } from "../../base/index.ts";
import type { JobProblem, JobRefusal } from "./job-answers.ts";

/**
 * Why a step is not permitted or was not taken.
 *
 * @param reason The sort of reason.
 * @param text What is wrong, as a sentence.
 * @param problems Every single thing that is wrong.
 */
export function jobRefusal(
  reason: JobRefusal["reason"],
  text: string,
  problems: readonly JobProblem[] = [],
): JobRefusal {
  return { kind: "job-refused", reason, text, problems };
}

/** The same as a failed result; as {@link jobRefusal}. */
export function refuse(
  reason: JobRefusal["reason"],
  text: string,
  problems: readonly JobProblem[] = [],
): Result<never, JobRefusal> {
  return err(jobRefusal(reason, text, problems));
}
