import { err, ok } from "../../base/index.ts";
import { noteEvent, resumeJob, type JobState } from "../../diagnosis/index.ts";
import { stepTaken, type JobStep } from "./job-step.ts";
import { jobStage } from "./job-stage.ts";
import { refusalOf } from "./open-job.ts";
import { readFacts, type FactsRequest, type ReadFacts } from "./read-facts.ts";
import { refuse } from "./refuse.ts";
import { closedRefusal } from "./take-given.ts";
import { weightProblems } from "./weight-problems.ts";

type Stamp = Parameters<JobStep>[1];

/** Adds what was learned later: codes, functions, conditions, weights, adapters, notes. */
export function addStep(request: FactsRequest): JobStep {
  return (job, stamp) => {
    const { state } = job;
    if (jobStage(state) === "closed") return closedRefusal();
    const read = readFacts(state.harness, request, state.facts.complaint);
    if (!read.ok) return refuse("wrong-input", "Nothing was added.", read.error);
    const before = withFacts(state, read.value, stamp);
    const unknown = weightProblems(before, read.value.weights);
    if (unknown.length > 0) return refuse("wrong-input", "Nothing was added.", unknown);
    const after = read.value.weights.reduce(
      (each, weight) => noteEvent(each, { kind: "prior", ...weight }, stamp),
      before,
    );
    const count = after.record.events.length - state.record.events.length;
    if (count === 0)
      return refuse("wrong-input", 'There is nothing to add. "ohmward job add --help" lists what may be said.');
    // A code or a function may lead to circuits on which no check is suggested.
    const allowed = resumeJob(state.harness, after.record);
    if (!allowed.ok) return err(refusalOf(allowed.error));
    return ok(
      stepTaken(job, after, {
        text: `Written down: ${count === 1 ? "1 thing" : `${count} things`} more about the job.`,
      }),
    );
  };
}

function withFacts(state: JobState, facts: ReadFacts, stamp: Stamp): JobState {
  const { complaint, hasComplaint, codes, symptoms, adapters, notes } = facts;
  const events = [
    ...(hasComplaint ? [{ kind: "complaint" as const, complaint }] : []),
    ...codes.map((each) => ({ kind: "code" as const, ...each })),
    ...symptoms.map((each) => ({ kind: "symptom" as const, ...each })),
    ...(adapters ? [{ kind: "equipment" as const, adapters: [...adapters] }] : []),
    ...notes.map((text) => ({ kind: "note" as const, text })),
  ];
  return events.reduce((before, event) => noteEvent(before, event, stamp), state);
}
