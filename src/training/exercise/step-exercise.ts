import { changeSetup, COSTS, NOT_MATED, repairMinutes, type CheckNeed } from "../../diagnosis/index.ts";
import { isKeyOn, isPermittedAt, type Harness, type State } from "../../harness-model/index.ts";
import type { ExerciseEvent } from "../../job-records/index.ts";
import { accessOf, isGuarded } from "../../measurement-safety/index.ts";
import { beliefAfter, firstBelief, jobOfTask, suggestNext, type Belief } from "../score/exercise-belief.ts";
import { handCheck } from "./hand-check.ts";
import { blownBy, candidateOf } from "./inserted-fault.ts";
import {
  adapterOf,
  dangerIn,
  fittedKey,
  isNotMated,
  ownerOf,
  stateOf,
  TRY_MINUTES,
  tryComplaint,
  type ExerciseState,
  type ExerciseStep,
  type FaultExercise,
  type Seen,
} from "./exercise-state.ts";
import { measure } from "./measure.ts";

/** An exercise before the first step: key off, everything connected, meter in the case. */
export function startExercise(harness: Harness, task: FaultExercise): ExerciseState {
  const { states } = harness.document;
  const rest =
    states.find(({ conditions }) => conditions.includes("key-off")) ??
    states.find(({ conditions }) => conditions.includes("battery-disconnected")) ??
    states[0];
  return {
    harness,
    task,
    setup: { state: rest?.id ?? "", unplugged: [], reached: [] },
    fitted: [],
    areLeadsZeroed: false,
    isMeterProven: false,
    minutes: 0,
    steps: [],
    suspects: undefined,
    isHypothesisFresh: false,
    damage: [],
    isRepaired: false,
    needless: [],
    hintPoints: 0,
    isEnded: false,
  };
}

/**
 * An exercise after some events. The same events give the same exercise, so it can be replayed from its file.
 *
 * @param events What was done, in order.
 */
export function foldExercise(harness: Harness, task: FaultExercise, events: readonly ExerciseEvent[]): ExerciseState {
  return events.reduce(stepExercise, startExercise(harness, task));
}

/** What changes with an event, beside the step itself. */
type Change = Partial<Omit<ExerciseState, "harness" | "task" | "steps" | "minutes">>;

interface Outcome {
  readonly seen: Seen;
  readonly minutes?: number;
  readonly change?: Change;
  readonly probe?: ExerciseStep["probe"];
}

/** Events that are actions: a hypothesis is asked for before each, where the task asks for one. */
const ACTIONS: ReadonlySet<ExerciseEvent["kind"]> = new Set([
  "measure",
  "visual-inspection",
  "wiggle",
  "terminal-drag",
  "substitute",
]);

/**
 * An exercise after one more event.
 *
 * @returns The exercise with one more step; its last step says what came of it. After the end nothing changes any more.
 */
export function stepExercise(exercise: ExerciseState, event: ExerciseEvent): ExerciseState {
  if (exercise.isEnded) return exercise;
  const isAction = ACTIONS.has(event.kind);
  const needsWord = exercise.task.asksHypothesis && isAction && !exercise.isHypothesisFresh;
  const outcome: Outcome = needsWord
    ? { seen: { kind: "not-ready", text: "First state a possible cause." } }
    : act(exercise, event);
  const { seen, minutes = 0, change = {}, probe } = outcome;
  const isDone = seen.kind !== "not-ready" && seen.kind !== "stopped";
  const { state, unplugged } = exercise.setup;
  const step: ExerciseStep = {
    event,
    seen,
    minutes,
    suspects: exercise.suspects,
    standing: { state, unplugged },
    isProven: exercise.isMeterProven,
    ...(probe ? { probe } : {}),
  };
  return {
    ...exercise,
    ...(isAction && isDone ? { isHypothesisFresh: false } : {}),
    ...change,
    minutes: exercise.minutes + minutes,
    steps: [...exercise.steps, step],
  };
}

function act(exercise: ExerciseState, event: ExerciseEvent): Outcome {
  switch (event.kind) {
    case "hypothesis":
      return { seen: done("Noted."), change: { suspects: event.suspects, isHypothesisFresh: true } };
    case "state":
      return setState(exercise, event.to);
    case "open":
      return openConnector(exercise, event.connector);
    case "close":
      return closeConnector(exercise, event.connector);
    case "fit":
      return fitAdapter(exercise, event);
    case "remove":
      return removeAdapter(exercise, event);
    case "zero-leads":
      return {
        seen: done("Lead resistance nulled."),
        minutes: COSTS.readingMinutes / 2,
        change: { areLeadsZeroed: true },
      };
    case "prove-meter":
      return {
        seen: done("The meter is proven on a live point."),
        minutes: COSTS.readingMinutes,
        change: { isMeterProven: true },
      };
    case "measure":
      return takeMeasure(exercise, event);
    case "visual-inspection":
    case "wiggle":
    case "terminal-drag":
    case "substitute":
      return handCheck(exercise, event);
    case "hint":
      return giveHint(exercise, event.level);
    case "name":
      return nameCause(exercise, event);
    case "repair":
      return repair(exercise, event);
    case "try":
      return tryAgain(exercise, event.state);
    case "end":
      return { seen: done("The exercise is ended."), change: { isEnded: true } };
  }
}

function done(text: string): Seen {
  return { kind: "done", text };
}

function notReady(text: string): Outcome {
  return { seen: { kind: "not-ready", text } };
}

/** Time and set-up of a change to what a check needs. */
function changeTo(
  exercise: ExerciseState,
  need: Partial<CheckNeed>,
): { readonly minutes: number; readonly setup: ExerciseState["setup"] } {
  const { states } = exercise.harness.document;
  const byId = new Map(states.map((state): [string, State] => [state.id, state]));
  const whole: CheckNeed = { state: exercise.setup.state, unplugged: exercise.setup.unplugged, places: [], ...need };
  const { minutes, next } = changeSetup(exercise.setup, whole, { byId, costs: COSTS });
  return { minutes, setup: next };
}

function setState(exercise: ExerciseState, to: string): Outcome {
  const state = stateOf(exercise.harness, to);
  if (!state) return notReady(`The machine has no state "${to}".`);
  const { minutes, setup } = changeTo(exercise, { state: to });
  return { seen: done(`Machine: ${state.label}.`), minutes, change: { setup, isMeterProven: false } };
}

/** The rule that nothing is unplugged, plugged in or fitted with the key on. */
function keyOffFirst(exercise: ExerciseState): Seen | undefined {
  const state = stateOf(exercise.harness, exercise.setup.state);
  if (!state || !isKeyOn(state)) return undefined;
  return {
    kind: "stopped",
    rule: "key-off",
    reason:
      "Turn the key off before you connect, disconnect, fit or replace anything. With the key on, terminals arc and control units can be damaged.",
    source: "common practice, no source",
    mayInsist: false,
  };
}

const LEFT_ALONE: Seen = {
  kind: "stopped",
  rule: "airbag-or-high-voltage-beside",
  reason: "Do not open or touch this connector: it carries an airbag or high-voltage line.",
  source: "common practice, no source",
  mayInsist: false,
};

function openConnector(exercise: ExerciseState, id: string): Outcome {
  const connector = exercise.harness.fitted.connectors.get(id);
  if (!connector) return notReady(`There is no connector "${id}" in this variant.`);
  if (exercise.setup.unplugged.includes(id)) return notReady(`${id} is disconnected already.`);
  const stopped =
    keyOffFirst(exercise) ??
    dangerIn(exercise, { states: accessOf(exercise.harness, connector)?.states, zone: connector.zone });
  if (stopped) return { seen: stopped };
  if (isGuarded(exercise.harness, { type: "connector", id })) return { seen: LEFT_ALONE };
  if (!isPermittedAt(connector, "unplug"))
    return notReady(`The harness data does not permit ${id} to be disconnected.`);
  const places = [{ key: `connector ${id}`, minutes: connector.access?.minutes ?? 2 }];
  const { minutes, setup } = changeTo(exercise, { unplugged: [...exercise.setup.unplugged, id], places });
  // Whoever comes to open a connector that was never plugged in sees it.
  const seen: Seen = isNotMated(exercise, id)
    ? { kind: "outcome", outcome: NOT_MATED, text: `${id} was disconnected already.`, isNormal: false }
    : done(`${id} is disconnected${connector.access?.remove === undefined ? "" : ` (${connector.access.remove})`}.`);
  return { seen, minutes, change: { setup } };
}

function closeConnector(exercise: ExerciseState, id: string): Outcome {
  if (!exercise.setup.unplugged.includes(id)) return notReady(`${id} is not disconnected.`);
  const stopped = keyOffFirst(exercise);
  if (stopped) return { seen: stopped };
  const unplugged = exercise.setup.unplugged.filter((each) => each !== id);
  const { minutes, setup } = changeTo(exercise, { unplugged });
  return { seen: done(`${id} is connected and locked.`), minutes, change: { setup } };
}

function fitAdapter(
  exercise: ExerciseState,
  { adapter, at }: { readonly adapter: string; readonly at: string },
): Outcome {
  const { harness, fitted } = exercise;
  const found = adapterOf(harness, adapter);
  const key = fittedKey(harness, adapter, at);
  if (!found) return notReady(`There is no adapter "${adapter}".`);
  const owner = ownerOf(harness, at) ?? at;
  if (!key.endsWith(` at ${owner}`) && found.method !== "relay-extension")
    return notReady(`${adapter} does not fit ${owner}.`);
  if (fitted.includes(key)) return notReady(`${adapter} is fitted already.`);
  const connector = harness.fitted.connectors.get(owner);
  const stopped =
    keyOffFirst(exercise) ??
    dangerIn(exercise, { states: connector ? accessOf(harness, connector)?.states : "any", zone: connector?.zone });
  if (stopped) return { seen: stopped };
  if (connector && isGuarded(harness, { type: "connector", id: owner })) return { seen: LEFT_ALONE };
  const access = exercise.setup.reached.includes(`connector ${owner}`) ? 0 : (connector?.access?.minutes ?? 2);
  const places = [{ key: `adapter ${key}`, minutes: access + (found.minutes ?? 1) }];
  const { minutes, setup } = changeTo(exercise, { places });
  return { seen: done(`${found.label} is fitted at ${owner}.`), minutes, change: { setup, fitted: [...fitted, key] } };
}

function removeAdapter(
  exercise: ExerciseState,
  { adapter, at }: { readonly adapter: string; readonly at: string },
): Outcome {
  const key = fittedKey(exercise.harness, adapter, at);
  if (!exercise.fitted.includes(key)) return notReady(`${adapter} is not fitted there.`);
  const stopped = keyOffFirst(exercise);
  if (stopped) return { seen: stopped };
  const fitted = exercise.fitted.filter((each) => each !== key);
  return { seen: done(`${adapter} is removed.`), minutes: COSTS.closeMinutes, change: { fitted } };
}

function takeMeasure(exercise: ExerciseState, event: Extract<ExerciseEvent, { kind: "measure" }>): Outcome {
  const state = stateOf(exercise.harness, exercise.setup.state);
  if (!state) return notReady("The state of the machine is not known.");
  const { seen, probe, places, damage } = measure(exercise, state, event);
  if (seen.kind !== "reading") return { seen };
  const { minutes, setup } = changeTo(exercise, { places });
  const change: Change = { setup, ...(damage ? { damage: [...exercise.damage, damage] } : {}) };
  return { seen, minutes: minutes + COSTS.readingMinutes, change, ...(probe ? { probe } : {}) };
}

function nameCause(exercise: ExerciseState, { cause }: Extract<ExerciseEvent, { kind: "name" }>): Outcome {
  const named = candidateOf(exercise.harness, cause);
  if (!named) return notReady(`This machine cannot have the fault ${cause}.`);
  return { seen: { kind: "named", text: `${named.label}.` } };
}

function repair(exercise: ExerciseState, { cause }: Extract<ExerciseEvent, { kind: "repair" }>): Outcome {
  const stopped = keyOffFirst(exercise);
  if (stopped) return { seen: stopped };
  const wanted = candidateOf(exercise.harness, cause);
  if (!wanted) return notReady(`This machine cannot have the fault ${cause}, so there is nothing to repair.`);
  const minutes = repairMinutes(wanted.repair);
  const isCause = !exercise.isRepaired && wanted.repair === exercise.task.hidden.candidate.repair;
  const damage = exercise.damage.map((each) =>
    wanted.repair === `${each.item.type} ${each.item.id}` ? { ...each, isRepaired: true } : each,
  );
  // A fuse that the fault has blown is no good part, though it blows again.
  const isBlown = !exercise.isRepaired && blownBy(exercise.task.hidden).some((of) => wanted.repair === `fuse ${of}`);
  const isDamage = damage.some((each, at) => each.isRepaired !== exercise.damage[at]?.isRepaired);
  // The trainee does not see here whether it helped: that is what the trial is for.
  const seen = done(`Done: ${wanted.repair}.`);
  if (isCause) return { seen, minutes, change: { isRepaired: true, damage } };
  return {
    seen,
    minutes,
    change: { damage, ...(isDamage || isBlown ? {} : { needless: [...exercise.needless, wanted.repair] }) },
  };
}

function tryAgain(exercise: ExerciseState, to: string): Outcome {
  const state = stateOf(exercise.harness, to);
  if (!state) return notReady(`The machine has no state "${to}".`);
  const { minutes, setup } = changeTo(exercise, { state: to });
  return {
    seen: tryComplaint({ ...exercise, setup }),
    minutes: minutes + TRY_MINUTES,
    change: { setup, isMeterProven: false },
  };
}

/** Points a hint of each level costs. Judgement; no source. */
export const HINT_POINTS = { 1: 1, 2: 2, 3: 4 } as const;
/** Hints of one level in an exercise. */
const MOST_OF_LEVEL = 3;

/**
 * Gives a hint: level 1 the question, level 2 where to test next, level 3 the test itself. Hints fade: exercises of level 2 give no
 * test any more, exercises of level 3 only the question; and each level answers three times at most.
 *
 * Source: whole problems, hints on request at several depths that fade are the method of coached practice (A. Lesgold and others, ERIC
 * ED299450, 1988); the numbers here are judgement.
 */
function giveHint(
  exercise: ExerciseState,
  level: 1 | 2 | 3,
): { readonly seen: Seen; readonly change?: Partial<ExerciseState> } {
  const deepest = 4 - exercise.task.level;
  if (level > deepest) return { seen: { kind: "not-ready", text: `This exercise has hints up to level ${deepest}.` } };
  const used = exercise.steps.filter(({ seen }) => seen.kind === "hint" && seen.level === level).length;
  if (used >= MOST_OF_LEVEL)
    return { seen: { kind: "not-ready", text: "This exercise has no more hints of this level." } };
  const text = hintText(exercise, level);
  const points = HINT_POINTS[level];
  return { seen: { kind: "hint", level, text, points }, change: { hintPoints: exercise.hintPoints + points } };
}

function hintText(exercise: ExerciseState, level: 1 | 2 | 3): string {
  const belief = beliefOf(exercise);
  if (!belief) return "No test is permitted on these circuits.";
  const next = suggestNext(belief, exercise.setup);
  if (next.kind !== "check") {
    if (level === 1)
      return "Review your findings. Is there a test left that separates the causes better than a repair?";
    return next.kind === "repair" || next.kind === "repair-in-order"
      ? "Your findings are enough to state the cause."
      : "Your findings fit no single fault. Repeat the last readings.";
  }
  const { check } = next;
  if (level === 1) {
    const isMeter = check.kind === "dc-voltage" || check.kind === "resistance";
    return isMeter
      ? "Find the wiring that all failing items share and no working item uses. Measure near its middle, at a point with easy access."
      : "Before you measure: inspect or move the wiring at the possible causes.";
  }
  const where = check.points.join(" and ");
  if (level === 2) return `Next: test at ${check.points[0] ?? where}. State: ${check.condition.toLowerCase()}.`;
  const off = check.unplugged.length > 0 ? ` with ${check.unplugged.join(", ")} disconnected` : "";
  return `${check.title}. State: ${check.condition.toLowerCase()}${off}. Pass: ${check.expected}.`;
}

function beliefOf(exercise: ExerciseState): Belief | undefined {
  const job = jobOfTask(exercise.harness, exercise.task);
  return job.ok ? exercise.steps.reduce(beliefAfter, firstBelief(job.value)) : undefined;
}
