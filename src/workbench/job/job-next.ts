import { unreachable } from "../../base/index.ts";
import { nextCheck, type DescribedChoice, type Suggestion } from "../../diagnosis/index.ts";
import type { PermittedCheck } from "./check-codes.ts";
import { checkFacts, checkLine } from "./check-facts.ts";
import type { JobNextAnswer, JobSuggestion } from "./job-answers.ts";
import { jobFacts, jobHeader } from "./job-header.ts";
import { jobStage } from "./job-stage.ts";
import { missingForTests } from "./missing-for-tests.ts";
import type { OpenJob } from "./open-job.ts";
import { proofFacts } from "./proof-facts.ts";
import { suspectFacts, suspectList } from "./suspect-facts.ts";

/**
 * What to do next in a job: the next check with its reasons, a reading to take again, a repair with its proofs.
 *
 * @param job The job.
 * @param written What the step before wrote down, if there was one.
 */
export function jobNext(job: OpenJob, written?: JobNextAnswer["written"]): JobNextAnswer {
  const { state } = job;
  const stage = jobStage(state);
  const planned = stage === "checking" ? nextCheck(state) : undefined;
  const check = planned && "check" in planned ? state.workup.checks.get(planned.check.key) : undefined;
  return {
    kind: "job-next",
    ...jobHeader(job, check),
    job: jobFacts(job),
    ...(written && { written }),
    suggestion: planned ? suggestionOf(job, planned, check) : afterRepair(job),
    suspects: suspectList(state),
    missing: stage === "checking" ? missingForTests(job) : [],
  };
}

function suggestionOf(job: OpenJob, planned: Suggestion, check: PermittedCheck | undefined): JobSuggestion {
  const { state } = job;
  switch (planned.kind) {
    case "check": {
      const { minutes, bits, expectedMinutes, why, outcomes, others } = planned;
      return {
        kind: "check",
        check: facts(job, check),
        ...{ minutes, bits, expectedMinutes, why },
        outcomes: outcomes.map(({ label, share, leaves }) => ({
          label,
          share,
          leaves: leaves.map((left) => ({ label: left.label, share: left.share })),
        })),
        others: others.flatMap((other) => otherLine(job, other)),
      };
    }
    case "recheck":
    case "prove-meter":
      return { kind: planned.kind, check: facts(job, check), why: planned.why };
    case "repair": {
      const [suspect] = suspectFacts(state, [planned.suspect]);
      const bare = { label: planned.suspect.label, share: planned.suspect.share, faults: [] };
      return { kind: "repair", suspect: suspect ?? bare, notes: planned.notes, proofs: proofFacts(state) };
    }
    case "repair-in-order": {
      const { reason, order, minutes, notes } = planned;
      const list = suspectFacts(state, order);
      return { kind: "repair-in-order", reason, order: list, minutes, notes, proofs: proofFacts(state) };
    }
    case "look-wider":
      return { kind: "look-wider", why: planned.why };
    case "nothing-to-go-on":
      return { kind: "nothing-to-go-on", unknown: planned.unknown };
    default:
      return unreachable(planned);
  }
}

function facts({ state }: OpenJob, check: PermittedCheck | undefined): ReturnType<typeof checkFacts> {
  if (!check) throw new RangeError("Cannot describe the next check: it is not among the permitted ones");
  return checkFacts(state, check);
}

function otherLine(
  { state }: OpenJob,
  { key, bits, minutes }: DescribedChoice,
): readonly ReturnType<typeof checkLine>[] {
  const check = state.workup.checks.get(key);
  return check ? [{ ...checkLine(state, check, bits), minutes }] : [];
}

/** A repair was written down: its proofs; or the job is closed. */
function afterRepair({ state }: OpenJob): JobSuggestion {
  const { closed } = state.facts;
  if (closed) {
    const text = closed.notChecked === undefined ? "" : `Not checked: ${closed.notChecked}`;
    return { kind: "closed", outcome: closed.outcome, text };
  }
  const proofs = proofFacts(state);
  const failed = proofs.filter(({ result }) => result?.verdict === "not-as-expected");
  const open = proofs.filter(({ result }) => result?.verdict !== "as-expected");
  const text =
    failed.length > 0
      ? notMended(state)
      : open.length > 0
        ? "Prove the repair under the conditions of the complaint."
        : "Every proof is as expected: the job can be closed.";
  return { kind: "prove", proofs, text };
}

/** How much less likely a suspect is once it was repaired and the complaint stayed, and why. Common practice, no source. */
export const REPAIRED_IN_VAIN = { factor: 0.01, origin: "repaired, the fault is still there" } as const;

/** The repair may be bad or the cause another one: the person says which. */
function notMended({ facts: { cause } }: OpenJob["state"]): string {
  const { factor, origin } = REPAIRED_IN_VAIN;
  const weight = `${cause?.suspect ?? "what was repaired"}=${factor}: ${origin}`;
  return `The machine is not mended, or not wholly. Look at the repair again; or make it unlikely, "ohmward job add" with --weight "${weight}", and go on checking.`;
}
