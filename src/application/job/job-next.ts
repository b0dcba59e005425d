import { unreachable } from "../../base/index.ts";
import {
  explainOutcomes,
  nextCheck,
  planNext,
  type DescribedChoice,
  type ExpectedOutcome,
  type JobState,
  type Suggestion,
} from "../../diagnosis/index.ts";
import { causeWords } from "../../job-records/index.ts";
import type { PermittedCheck } from "./check-codes.ts";
import { checkFacts, checkLine, minutesFromHere } from "./check-facts.ts";
import type { CheckFacts, CheckLine, JobNextAnswer, JobSuggestion } from "./job-answers.ts";
import { jobFacts, jobHeader, verificationFacts, suspectFacts, suspectList } from "./job-facts.ts";
import { jobStage } from "./job-stage.ts";
import { missingForTests } from "./missing-for-tests.ts";
import type { OpenJob } from "./open-job.ts";
import { REPAIRED_IN_VAIN } from "./read-facts.ts";

/** What is wanted of a job besides what is next. */
export interface NextRequest {
  /** What the step before recorded, if there was one. */
  readonly written?: JobNextAnswer["written"];
  /** A permitted check that a person wants in place of the proposed one. */
  readonly check?: PermittedCheck;
}

/**
 * What to do next in a job: the next test with its reasons, a reading to take again, a repair with its verification.
 *
 * @param job The job.
 * @param request What was recorded before; a test that is wanted instead.
 */
export function jobNext(job: OpenJob, { written, check: wanted }: NextRequest = {}): JobNextAnswer {
  const { state } = job;
  const stage = jobStage(state);
  const planned = stage === "checking" && !wanted ? nextCheck(state) : undefined;
  const proposed = planned && "check" in planned ? state.model.checks.get(planned.check.key) : undefined;
  const check = wanted ?? proposed;
  const suggestion = wanted ? chosen(job, wanted) : planned ? suggestionOf(job, planned, proposed) : afterRepair(job);
  const proofs = suggestion.kind === "prove" ? suggestion.proofs : [];
  const sentTo = [check, ...proofs.map((proof) => state.model.checks.get(proof.check?.key ?? ""))];
  return {
    kind: "job-next",
    ...jobHeader(
      job,
      sentTo.filter((each) => each !== undefined),
    ),
    job: jobFacts(job),
    ...(written && { written }),
    suggestion,
    suspects: suspectList(state),
    unknown: state.model.scope.unknown,
    missing: stage === "checking" ? missingForTests(job) : [],
  };
}

function chosen({ state }: OpenJob, check: PermittedCheck): JobSuggestion {
  const { plan, ranked } = planNext(state);
  const test = plan.checks.findIndex(({ key }) => key === check.key);
  const bits = ranked.find((each) => each.test === test)?.bits;
  return {
    kind: "check",
    check: checkFacts(state, check),
    isChosen: true,
    minutes: minutesFromHere(state, check),
    ...(bits === undefined ? {} : { bits }),
    why: ["You chose this test."],
    outcomes: outcomes(explainOutcomes(state, plan, { test })),
    others: ranked.slice(0, 6).flatMap((each) => {
      const other = plan.checks[each.test];
      return other && other.key !== check.key ? [checkLine(state, other, each.bits)] : [];
    }),
  };
}

function outcomes(expected: readonly ExpectedOutcome[]): Extract<JobSuggestion, { kind: "check" }>["outcomes"] {
  return expected.map(({ label, share, leaves }) => ({
    label,
    share,
    leaves: leaves.map((left) => ({ label: left.label, share: left.share })),
  }));
}

function suggestionOf(job: OpenJob, planned: Suggestion, check: PermittedCheck | undefined): JobSuggestion {
  const { state } = job;
  switch (planned.kind) {
    case "check": {
      const { minutes, bits, why, others } = planned;
      return {
        kind: "check",
        check: facts(state, check),
        isChosen: false,
        ...{ minutes, bits, why },
        outcomes: outcomes(planned.outcomes),
        others: others.flatMap((other) => otherLine(state, other)),
      };
    }
    case "recheck":
    case "prove-meter":
      return { kind: planned.kind, check: facts(state, check), why: planned.why };
    case "repair": {
      const [suspect] = suspectFacts(state, [planned.suspect]);
      if (!suspect) throw new RangeError("Cannot describe the repair: no possible cause is named");
      return { kind: "repair", suspect, notes: planned.notes, proofs: verificationFacts(state) };
    }
    case "repair-in-order": {
      const { reason, order, minutes, notes } = planned;
      const list = suspectFacts(state, order);
      return { kind: "repair-in-order", reason, order: list, minutes, notes, proofs: verificationFacts(state) };
    }
    case "look-wider":
    case "no-electrical-fault":
      return { kind: planned.kind, why: planned.why };
    case "nothing-to-go-on":
      return { kind: "nothing-to-go-on", unknown: planned.unknown };
    default:
      return unreachable(planned);
  }
}

function facts(state: JobState, check: PermittedCheck | undefined): CheckFacts {
  if (!check) throw new RangeError("Cannot describe the next check: it is not among the permitted ones");
  return checkFacts(state, check);
}

function otherLine(state: JobState, { key, bits, minutes }: DescribedChoice): readonly CheckLine[] {
  const check = state.model.checks.get(key);
  return check ? [{ ...checkLine(state, check, bits), minutes }] : [];
}

/** A repair was recorded: its verification; or the job is closed. */
function afterRepair({ state }: OpenJob): JobSuggestion {
  const { closed, cause } = state.facts;
  if (closed) {
    const text = closed.notChecked === undefined ? "" : `Not checked: ${closed.notChecked}`;
    return { kind: "closed", outcome: closed.outcome, text };
  }
  const proofs = verificationFacts(state);
  const isFailed = proofs.some(({ result }) => result?.verdict === "fail");
  const isOpen = proofs.some(({ result }) => result?.verdict !== "pass");
  const text = isFailed
    ? "Verification failed: the machine is not repaired. Inspect the repair again. Or make this cause less probable and continue testing."
    : isOpen
      ? "Verify the repair under the conditions of the complaint."
      : "Every verification passed. You can close the job.";
  // The repair may be bad or the cause another one: the person says which.
  const goOn = isFailed && cause ? { of: cause.suspect, ...REPAIRED_IN_VAIN } : undefined;
  return { kind: "prove", proofs, text, ...(cause && { cause: causeWords(cause) }), ...(goOn && { goOn }) };
}
