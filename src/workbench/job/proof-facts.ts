import { proofsOf, type JobState, type Proof } from "../../diagnosis/index.ts";
import { contentHash, describeGiven } from "../../records/index.ts";
import { checkFacts } from "./check-facts.ts";
import type { ProofFacts } from "./job-answers.ts";

/** A proof with the key under which its result is written down. */
export interface NumberedProof {
  readonly number: number;
  readonly key: string;
  readonly proof: Proof;
}

/**
 * The proofs of the repair, numbered.
 *
 * @param state The job.
 */
export function numberedProofs(state: JobState): readonly NumberedProof[] {
  return proofsOf(state).map((proof, index) => ({
    number: index + 1,
    // A trial has no check; its sentence names it.
    key: proof.check?.key ?? `trial ${contentHash(proof.text)}`,
    proof,
  }));
}

/**
 * The proofs of the repair with what they gave since the last repair.
 *
 * @param state The job.
 */
export function proofFacts(state: JobState): readonly ProofFacts[] {
  const { record, facts, workup } = state;
  const repaired = record.events.findIndex(({ id }) => id === facts.repairs.at(-1)?.id);
  const later = new Set(record.events.slice(repaired + 1).map(({ id }) => id));
  return numberedProofs(state).map(({ number, key, proof }) => {
    const done = facts.proofs.findLast((each) => each.check.key === key && later.has(each.id));
    const check = workup.checks.get(key);
    return {
      number,
      text: proof.text,
      ...(check && { check: checkFacts(state, check) }),
      ...(done && { result: { text: describeGiven(done.given), verdict: done.verdict } }),
    };
  });
}
