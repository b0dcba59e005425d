import { unreachable } from "../../base/index.ts";
import { candidateWeight, planNext, PRIORS } from "../../diagnosis/index.ts";
import { describeGiven, type JobEvent } from "../../records/index.ts";
import { checkLine } from "./check-facts.ts";
import { complaintWords } from "./complaint-words.ts";
import type { JobChecksAnswer, JobShowAnswer, JobWeightsAnswer } from "./job-answers.ts";
import { jobFacts, jobHeader } from "./job-header.ts";
import { jobStage } from "./job-stage.ts";
import type { OpenJob } from "./open-job.ts";
import { suspectList } from "./suspect-facts.ts";
import { weightNames } from "./weight-problems.ts";

/**
 * Every permitted check of a job, those that tell most for their time first.
 *
 * @param job The job.
 */
export function jobChecks(job: OpenJob): JobChecksAnswer {
  const { state } = job;
  const isOpen = jobStage(state) !== "closed" && state.workup.hypotheses.length > 0;
  const { plan, ranked } = isOpen ? planNext(state) : { plan: { checks: [] }, ranked: [] };
  const bits = new Map(
    ranked.flatMap((each) => {
      const check = plan.checks[each.test];
      return check ? [[check.key, each.bits] as const] : [];
    }),
  );
  const order = new Map([...bits.keys()].map((key, index) => [key, index]));
  const lines = [...state.workup.checks.values()].map((check) => checkLine(state, check, bits.get(check.key)));
  const checks = lines.toSorted((a, b) => (order.get(a.key) ?? Infinity) - (order.get(b.key) ?? Infinity) || 0);
  return { kind: "job-checks", ...jobHeader(job), job: jobFacts(job), checks };
}

/**
 * A job as it stands: complaint, suspects, everything that was written down.
 *
 * @param job The job.
 */
export function jobShow(job: OpenJob): JobShowAnswer {
  const { facts } = job.state;
  const names = weightNames(job.state);
  return {
    kind: "job",
    ...jobHeader(job),
    job: jobFacts(job),
    complaint: complaintWords(facts),
    ...(facts.adapters && { adapters: [...facts.adapters] }),
    suspects: suspectList(job.state),
    log: logOf(job),
    weights: facts.priors.map(({ id, of, factor, origin }) => ({
      event: id,
      of,
      factor,
      origin,
      suspects: names.get(of)?.size ?? 0,
    })),
  };
}

/**
 * What every fault that is looked for weighs before the first reading, and why.
 *
 * @param job The job.
 */
export function jobWeights(job: OpenJob): JobWeightsAnswer {
  const single = job.state.workup.hypotheses.flatMap(({ candidates }) => (candidates.length === 1 ? candidates : []));
  const once = [...new Map(single.map((each) => [each.id, each])).values()];
  const weights = once
    .map((each) => ({
      ...{ id: each.id, label: each.label, repair: each.repair, mode: each.mode },
      weight: candidateWeight(each),
      factors: each.factors.map(({ factor, why }) => ({ factor, why })),
    }))
    .sort((a, b) => b.weight - a.weight);
  const { origin, somethingElse } = PRIORS;
  return {
    kind: "job-weights",
    ...jobHeader(job),
    job: jobFacts(job),
    priorOrigin: origin,
    somethingElse,
    weights,
  };
}

function logOf({ state }: OpenJob): JobShowAnswer["log"] {
  const { record, facts, workup } = state;
  const standing = new Map(facts.readings.map((reading) => [reading.id, reading]));
  return record.events.map((event) => {
    const isReading = event.kind === "reading";
    const corrected = standing.get(event.id);
    return {
      event: event.id,
      at: event.at,
      what: event.kind,
      text: eventWords(isReading && corrected ? { ...event, given: corrected.given } : event),
      ...("verdict" in event ? { verdict: event.verdict } : {}),
      isUndone: facts.undone.has(event.id),
      isCorrected: corrected?.isAmended ?? false,
      counts: !isReading || workup.checks.has(event.check.key),
    };
  });
}

function eventWords(event: JobEvent): string {
  switch (event.kind) {
    case "complaint":
      return event.complaint.words;
    case "code":
      return `${event.code} ${event.status}`;
    case "symptom":
      return `${event.thing} ${event.is}`;
    case "equipment":
      return event.adapters.length === 0 ? "no adapters" : event.adapters.join(", ");
    case "prior":
      return `${event.of} times ${event.factor}: ${event.origin}`;
    case "reading":
    case "proof":
      return `${event.check.point}; ${event.check.condition}; expected ${event.check.expected}; measured ${describeGiven(event.given)}`;
    case "amend":
      return `${event.of} is now ${describeGiven(event.given)}`;
    case "undo":
      return `${event.of} taken back`;
    case "cause":
      return `${event.text} (${event.suspect})`;
    case "repair":
      return [event.text, ...event.parts].join("; ");
    case "note":
      return event.text;
    case "closed":
      return event.outcome.replaceAll("-", " ");
    default:
      return unreachable(event);
  }
}
