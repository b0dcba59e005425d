import type { Proof } from "../../diagnosis/index.ts";
import type { JobFacts } from "../../records/index.ts";

/** What is being done in a job: checking, writing the cause down, proving the repair, ending it, reading what was written. */
export type JobStage = "checks" | "cause" | "prove" | "close" | "report";

/** By which factors a person changed weights, by what was weighed. */
export function weightsOf({ priors }: Pick<JobFacts, "priors">): ReadonlyMap<string, number> {
  const factors = new Map<string, number>();
  for (const { of, factor } of priors) factors.set(of, (factors.get(of) ?? 1) * factor);
  return factors;
}

/** Names a proof in the record: that of its check, or its words. */
export function proofKey({ check, text }: Proof): string {
  return check?.key ?? `trial: ${text}`.slice(0, 400);
}
