import { keptIn, type Result } from "../../base/index.ts";
import {
  entropyBits,
  topAmbiguityGroups,
  nextCheck,
  startJob,
  updateBelief,
  type Evidence,
  type GroupProbability,
  type JobFault,
  type JobState,
  type NewJob,
  type Suggestion,
  type WorkSetup,
} from "../../diagnosis/index.ts";
import type { Harness } from "../../harness-model/index.ts";
import type { JobFacts } from "../../job-records/index.ts";
import { candidateOf } from "../exercise/inserted-fault.ts";
import type { ExerciseStep, FaultExercise } from "../exercise/exercise-state.ts";
import { findObservedVoltages, isSilent, type Signs } from "../exercise/signs.ts";
import { evidenceOfStep } from "./exercise-evidence.ts";

/** What is still believed after a step. */
export interface Left {
  /** Repair groups with a share of at least 1 in 100, the most likely first. */
  readonly suspects: readonly { readonly label: string; readonly share: number }[];
  /** Bits still missing to be sure of the repair group. */
  readonly bits: number;
}

// Worked out once a task: it takes a second, and playing, scoring and hints all begin with it.
const jobs = new WeakMap<FaultExercise, Result<JobState, JobFault>>();

/** The job as the planner gets it: what the complaint and the code reader say, nothing of what is hidden. */
export function jobOfTask(harness: Harness, task: FaultExercise): Result<JobState, JobFault> {
  return keptIn(jobs, task, () => beginJob(harness, task));
}

function beginJob(harness: Harness, { signs, complaint, hidden }: FaultExercise): Result<JobState, JobFault> {
  const words = complaint.join(" ").slice(0, 2000);
  const status = hidden.isIntermittent ? ("previously-active" as const) : ("active" as const);
  return startJob(harness, {
    id: "practice",
    stamp: { at: "2000-01-01T00:00:00Z", writer: "p" },
    complaint: {
      words,
      conditions: { presence: hidden.isIntermittent ? "intermittent" : "always" },
      recentWork: [],
    },
    codes: signs.codes.slice(0, MOST_CODES).map((code) => ({ code, status })),
    symptoms: symptomsOf(harness, signs),
  });
}

/** Where everything fails at once the first few codes and functions say enough, and more of them lead nowhere. */
const MOST_CODES = 6;
const MOST_BAD = 3;
const MOST_GOOD = 4;

/** Bad functions where no code tells more, dead control units before what hangs on them; and some that work. */
function symptomsOf(harness: Harness, { codes, functions, deadModules }: Signs): NonNullable<NewJob["symptoms"]> {
  const failing = deadModules.length > 0 ? deadModules : functions.map(({ component }) => component);
  const bad = codes.length > 0 && deadModules.length === 0 ? [] : failing.slice(0, MOST_BAD);
  const affected = new Set(functions.map(({ component }) => component));
  const working = new Set(findObservedVoltages(harness).map(({ component }) => component));
  const good = bad.length === 0 ? [] : [...working].filter((id) => !affected.has(id)).slice(0, MOST_GOOD);
  return [...bad.map((item) => ({ item, is: "bad" as const })), ...good.map((item) => ({ item, is: "good" as const }))];
}

/** A belief with the evidence it rests on. */
export interface Belief {
  readonly job: JobState;
  readonly evidence: readonly Evidence[];
  readonly shares: Float64Array;
  /** Repair groups done of which it is not known yet whether they helped. */
  readonly repaired: readonly string[];
  /** Repair groups done while the complaint stayed. */
  readonly ruledOut: readonly string[];
}

/** What is believed before anything was done. */
export function firstBelief(job: JobState): Belief {
  return { job, evidence: [], shares: job.belief, repaired: [], ruledOut: [] };
}

/**
 * What is believed after a step; the same belief where the step says nothing. A repair after which the complaint is tried, with everything
 * plugged in, and stays rules its group out.
 */
export function beliefAfter(belief: Belief, step: ExerciseStep): Belief {
  const { job, repaired, ruledOut } = belief;
  const { event, seen, standing } = step;
  if (event.kind === "repair" && seen.kind === "done") {
    const repair = candidateOf(job.harness, event.cause)?.repair;
    return repair === undefined ? belief : { ...belief, repaired: [...repaired, repair] };
  }
  if (seen.kind === "tried" && !isSilent(seen.signs) && standing.unplugged.length === 0 && repaired.length > 0)
    return weighed({ ...belief, repaired: [], ruledOut: [...ruledOut, ...repaired] });
  const said = evidenceOfStep(job.model, step);
  return said ? weighed({ ...belief, evidence: [...belief.evidence, said] }) : belief;
}

function weighed(belief: Omit<Belief, "shares">): Belief {
  const { job, evidence, ruledOut } = belief;
  const { priors, evidence: before, hypotheses, groups } = job.model;
  const shares = updateBelief(priors, [...before, ...evidence]);
  hypotheses.forEach(({ group }, at) => {
    if (ruledOut.includes(groups[group] ?? "")) shares[at] = 0;
  });
  const sum = shares.reduce((all, share) => all + share, 0);
  return { ...belief, shares: shares.map((share) => share / sum) };
}

/** Shares of the repair groups, the most likely first; "something else" is group -1. */
function groupShares({ job, shares }: Belief): readonly GroupProbability[] {
  return topAmbiguityGroups(shares, [...job.model.hypotheses.map(({ group }) => group), -1]);
}

/** A belief in words. */
export function leftOf(belief: Belief): Left {
  const groups = groupShares(belief);
  const label = (group: number): string => (group < 0 ? "something else" : (belief.job.model.groups[group] ?? ""));
  return {
    suspects: groups.filter(({ share }) => share >= 0.01).map(({ group, share }) => ({ label: label(group), share })),
    bits: entropyBits(groups.map(({ share }) => share)),
  };
}

/** Share of a repair group by its name. */
export function shareOfRepair(belief: Belief, repair: string): number {
  const group = belief.job.model.groups.indexOf(repair);
  return groupShares(belief).find((each) => each.group === group)?.share ?? 0;
}

/**
 * What the planner would do next with a belief, wherever the work stands. Readings are taken as they are: no check is asked for twice, and
 * no meter to be proven.
 *
 * @param belief What is believed, with what it rests on.
 */
export function suggestNext({ job, shares, evidence }: Belief, setup: WorkSetup): Suggestion {
  const readings = evidence.map(({ key }) => readingOf(key));
  return nextCheck({ ...job, belief: shares, setup, improbableReadings: [], facts: { ...job.facts, readings } });
}

/** A reading that says no more than that its check was done: what it showed is in the belief already. */
function readingOf(key: string): JobFacts["readings"][number] {
  return {
    kind: "reading",
    id: key,
    at: "",
    check: { key, kind: "visual-inspection", point: "", condition: "", setup: [], meter: "", expected: "", minutes: 0 },
    given: { kind: "unsure" },
    verdict: "inconclusive",
    suspects: [],
    isAmended: false,
  };
}
