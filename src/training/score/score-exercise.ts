import { keptIn } from "../../base/index.ts";
import { candidateOf } from "../exercise/inserted-fault.ts";
import type { ExerciseState, ExerciseStep } from "../exercise/exercise-state.ts";
import { isSilent } from "../exercise/signs.ts";
import {
  beliefAfter,
  firstBelief,
  jobOfTask,
  leftOf,
  shareOfRepair,
  suggestNext,
  type Belief,
  type Left,
} from "./exercise-belief.ts";
import type { PlannerPath } from "./planner-path.ts";

/** One part of a score. */
interface ScorePart {
  readonly id: "cause" | "parts" | "order" | "proof" | "time" | "care";
  readonly label: string;
  readonly points: number;
  readonly of: number;
  /** Why so many, a sentence each. */
  readonly why: readonly string[];
}

/** The score of an exercise with its parts, and the path beside it. */
export interface ExerciseScore {
  readonly total: number;
  readonly parts: readonly ScorePart[];
  /** Points that hints cost, taken off the sum of the parts. */
  readonly hintPoints: number;
  /** Two damaging probes: the hunt counts as failed whatever the points. */
  readonly isFailed: boolean;
  readonly path: readonly PathStep[];
}

/** One step with what it left. */
export interface PathStep {
  readonly step: ExerciseStep;
  /** What was still possible after it, as the planner calculates it. */
  readonly left: Left;
  /** Minutes since the start. */
  readonly minutes: number;
}

/** Points of each part; what is lost for each thing. Proposed by judgement after the weights of a navy performance test. */
const OF = { cause: 40, parts: 15, order: 15, proof: 10, time: 10, care: 10 } as const;
const RENAMED_LOSS = 10;
const STOPPED_LOSS = 3;
const PROVEN_SHARE = 0.8;
/** Up to this many times the planner's minutes time is full; from this many on it is nothing. */
const FULL_TIME = 1.25;
const NO_TIME = 3;
/** A share of the planner's information a minute that counts as full. */
const FULL_ORDER = 0.8;

/**
 * Scores a hunt: cause 40, no good part replaced 15, order of checks 15, proof 10, time 10, care 10; hints are taken off. Order is the
 * information gained a minute, both of trainee and planner up to the moment they named the cause. A wrong name or a needless repair does
 * not count against the trainee where no check could tell any more, or a repair was quicker than any check, and the planner would have
 * tried the same repair in its order, or did so on its own path.
 *
 * @param exercise The hunt, at its end or at any time.
 * @param planner The path of the planner through the same task.
 *
 * Source: weights by judgement; that solution, parts changed, time, proof, order and care tell good from poor work, in about this order of
 * weight, is the finding of a navy test of troubleshooters (Conner and others, NPRDC), seen in a copy read by machine.
 */
export function scoreExercise(exercise: ExerciseState, planner: PlannerPath): ExerciseScore {
  const job = jobOfTask(exercise.harness, exercise.task);
  const first = job.ok ? firstBelief(job.value) : undefined;
  const followed = followPath(exercise, first);
  const own = lookAtNames(exercise, followed, planner);
  const its = namesOfPlanner(planner, first);
  const parts = [
    causePart(own),
    partsPart(own),
    orderPart(own, its),
    verificationPart(exercise, own),
    timePart(exercise, planner.exercise),
    carePart(exercise),
  ];
  const sum = parts.reduce((all, part) => all + part.points, 0);
  const path = followed.map(({ step, belief, minutes }) => ({
    step,
    minutes,
    left: belief ? leftOf(belief) : NOTHING,
  }));
  const isFailed = damagingProbes(exercise) >= 2;
  return {
    total: Math.max(0, Math.round((sum - exercise.hintPoints) * 10) / 10),
    parts,
    hintPoints: exercise.hintPoints,
    isFailed,
    path,
  };
}

const NOTHING: Left = { suspects: [], bits: 0 };

// A class is held against one path of the planner, which never changes.
const known = new WeakMap<PlannerPath, Names>();

function namesOfPlanner(planner: PlannerPath, first: Belief | undefined): Names {
  return keptIn(known, planner, () => lookAtNames(planner.exercise, followPath(planner.exercise, first), planner));
}

interface Followed {
  readonly step: ExerciseStep;
  /** What was believed before and after the step. */
  readonly before: Belief | undefined;
  readonly belief: Belief | undefined;
  readonly setup: ExerciseState["setup"];
  readonly minutes: number;
}

function followPath({ harness, task, steps, setup }: ExerciseState, first: Belief | undefined): readonly Followed[] {
  let belief = first;
  let minutes = 0;
  let isRepaired = false;
  const reached = setup.reached;
  return steps.map((step) => {
    const before = belief;
    minutes += step.minutes;
    if (belief && !isRepaired) belief = beliefAfter(belief, step);
    // After the right repair the readings are of another machine and say nothing about the fault that was there.
    const { event, seen } = step;
    if (event.kind === "repair" && seen.kind === "done")
      isRepaired ||= candidateOf(harness, event.cause)?.repair === task.hidden.candidate.repair;
    return { step, before, belief, minutes, setup: { ...step.standing, reached } };
  });
}

interface Names {
  /** The cause was named right, at the last naming. */
  readonly isRight: boolean;
  /** Names that were wrong and that the planner would not have tried. */
  readonly wrong: number;
  /** Good parts repaired or replaced that the planner would not have tried. */
  readonly needless: readonly string[];
  /** Share of the true repair group when it was named, and whether no check could tell more by then. */
  readonly share: number;
  readonly isPlanners: boolean;
  /** Bits gained and minutes spent until the first naming. */
  readonly bits: number;
  readonly minutes: number;
}

function lookAtNames(exercise: ExerciseState, followed: readonly Followed[], planner: PlannerPath): Names {
  const truth = exercise.task.hidden.candidate.repair;
  const names = followed.filter(({ step }) => step.event.kind === "name" && step.seen.kind === "named");
  const repairOf = ({ step: { event } }: Followed): string | undefined =>
    event.kind === "name" || event.kind === "repair" ? candidateOf(exercise.harness, event.cause)?.repair : undefined;
  const isExcused = (each: Followed): boolean =>
    planner.inOrder.includes(repairOf(each) ?? "") || isInOrder(each, repairOf(each));
  const last = names.at(-1);
  const isRight = last !== undefined && repairOf(last) === truth;
  const wrong = names.filter((each) => repairOf(each) !== truth && !isExcused(each));
  const needless = followed.filter(
    (each) =>
      each.step.event.kind === "repair" &&
      each.step.seen.kind === "done" &&
      exercise.needless.includes(repairOf(each) ?? "") &&
      !isExcused(each),
  );
  const end = names[0] ?? followed.at(-1);
  const start = followed[0]?.before;
  return {
    isRight,
    wrong: wrong.length,
    needless: [...new Set(needless.flatMap((each) => repairOf(each) ?? []))],
    share: last?.before ? shareOfRepair(last.before, truth) : 0,
    isPlanners: last !== undefined && (isInOrder(last, truth) || (exercise === planner.exercise && isExcused(last))),
    bits: start && end?.before ? Math.max(0, leftOf(start).bits - leftOf(end.before).bits) : 0,
    minutes: end ? end.minutes - end.step.minutes : 0,
  };
}

/** Whether no check could tell any more, or a repair was quicker than any, and the planner would try this one in its order. */
function isInOrder({ before, setup }: Followed, repair: string | undefined): boolean {
  if (!before || repair === undefined) return false;
  const next = suggestNext(before, setup);
  return next.kind === "repair-in-order" && next.order.some(({ label }) => label === repair);
}

function part(id: ScorePart["id"], label: string, points: number, why: readonly string[]): ScorePart {
  return { id, label, points: Math.max(0, Math.min(OF[id], Math.round(points * 10) / 10)), of: OF[id], why };
}

function causePart({ isRight, wrong }: Names): ScorePart {
  const why = [isRight ? "The stated cause is right." : "The cause was not stated."];
  if (isRight && wrong > 0) why.push(`A wrong cause was stated ${wrong} ${wrong === 1 ? "time" : "times"} before.`);
  return part("cause", "Cause", isRight ? OF.cause - RENAMED_LOSS * wrong : 0, why);
}

function partsPart({ needless, isRight }: Names): ScorePart {
  const why =
    needless.length > 0 ? [`These parts had no fault: ${needless.join(", ")}.`] : ["No good part was replaced."];
  // Who repairs nothing replaces nothing good either; that alone is no merit.
  return part(
    "parts",
    "No good part replaced",
    needless.length > 0 || !isRight ? 0 : OF.parts,
    isRight ? why : [...why, "Counts only with the right cause."],
  );
}

function orderPart(own: Names, planner: Names): ScorePart {
  if (!own.isRight) return part("order", "Order of tests", 0, ["Counts only with the right cause."]);
  const rate = ({ bits, minutes }: Names): number => (minutes > 0 ? bits / minutes : bits > 0 ? Infinity : 0);
  const [mine, its] = [rate(own), rate(planner)];
  const ratio = its === 0 ? (own.minutes <= planner.minutes + 5 ? 1 : 0) : mine === Infinity ? 1 : mine / its;
  const why = [
    `Your tests gave ${own.bits.toFixed(1)} bits of information in ${own.minutes.toFixed(0)} min; the recommended tests gave ${planner.bits.toFixed(1)} bits in ${planner.minutes.toFixed(0)} min.`,
  ];
  return part("order", "Order of tests", (OF.order * Math.min(1, ratio)) / FULL_ORDER, why);
}

function verificationPart(exercise: ExerciseState, { isRight, share, isPlanners: isPlannersRepair }: Names): ScorePart {
  const isProven = isRight && (share >= PROVEN_SHARE || isPlannersRepair);
  const repairAt = exercise.steps.findLastIndex(({ event, seen }) => event.kind === "repair" && seen.kind === "done");
  const after = repairAt < 0 ? [] : exercise.steps.slice(repairAt + 1);
  const before = repairAt < 0 ? [] : exercise.steps.slice(0, repairAt);
  const tried = after.findLast(({ seen }) => seen.kind === "tried")?.seen;
  const isGone = exercise.isRepaired && tried?.kind === "tried" && isSilent(tried.signs);
  const isRepeated =
    after.some(({ event, probe }) => isAgain(before, event, probe)) || !before.some(({ probe }) => probe);
  const why = [
    isProven ? "The findings supported the stated cause." : "The findings did not support the stated cause.",
    isGone ? "The complaint was tried again and is gone." : "No trial showed that the complaint is gone.",
    isRepeated ? "A reading was repeated after the repair." : "No reading was repeated after the repair.",
  ];
  return part(
    "proof",
    "Verification of cause and repair",
    (isProven ? 5 : 0) + (isGone ? 3 : 0) + (isGone && isRepeated ? 2 : 0),
    why,
  );
}

/** The same leads as in a step before, or the same place moved again. */
function isAgain(before: readonly ExerciseStep[], event: ExerciseStep["event"], probe: ExerciseStep["probe"]): boolean {
  if (event.kind === "wiggle") return true;
  if (!probe) return false;
  const text = JSON.stringify({ ...probe, leads: undefined });
  return before.some((step) => step.probe && JSON.stringify({ ...step.probe, leads: undefined }) === text);
}

function timePart(own: ExerciseState, planner: ExerciseState): ScorePart {
  const why = [
    `You took ${own.minutes.toFixed(0)} min; the recommended sequence takes ${planner.minutes.toFixed(0)} min.`,
  ];
  if (!own.isRepaired) return part("time", "Time", 0, [...why, "Counts only with the repair."]);
  const times = planner.minutes > 0 ? own.minutes / planner.minutes : 1;
  return part("time", "Time", (OF.time * (NO_TIME - Math.max(FULL_TIME, times))) / (NO_TIME - FULL_TIME), why);
}

function damagingProbes({ steps }: ExerciseState): number {
  return steps.filter(({ seen }) => seen.kind === "reading" && seen.damaged !== undefined).length;
}

function carePart(exercise: ExerciseState): ScorePart {
  const damaging = damagingProbes(exercise);
  const stopped = exercise.steps.filter(({ seen }) => seen.kind === "stopped").length;
  const why = [
    ...(damaging > 0 ? [`${damaging} damaging ${damaging === 1 ? "probe" : "probes"}.`] : []),
    ...(stopped > 0 ? [`A safety rule stopped you ${stopped} ${stopped === 1 ? "time" : "times"}.`] : []),
    ...(damaging + stopped === 0 ? ["No damage. No safety rule broken."] : []),
  ];
  return part("care", "Care", OF.care - OF.care * damaging - STOPPED_LOSS * stopped, why);
}
