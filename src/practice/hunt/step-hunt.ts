import { changeSetup, COSTS, repairMinutes, type CheckNeed } from "../../diagnosis/index.ts";
import { isKeyOn, isPermittedAt, type Harness, type State } from "../../model/index.ts";
import type { HuntEvent } from "../../records/index.ts";
import { accessOf, isGuarded } from "../../safety/index.ts";
import { beliefAfter, firstBelief, jobOfTask, suggestNext, type Belief } from "../score/hunt-belief.ts";
import { handCheck } from "./hand-check.ts";
import { blownBy, candidateOf } from "./inserted-fault.ts";
import {
  adapterOf,
  dangerIn,
  fittedKey,
  ownerOf,
  stateOf,
  TRY_MINUTES,
  tryComplaint,
  type HuntState,
  type HuntStep,
  type HuntTask,
  type Seen,
} from "./hunt-state.ts";
import { measure } from "./measure.ts";

/** A hunt before anything was done: key off, everything plugged in, meter in the case. */
export function startHunt(harness: Harness, task: HuntTask): HuntState {
  const { states } = harness.document;
  const rest =
    states.find(({ conditions }) => conditions.includes("key-off")) ??
    states.find(({ conditions }) => conditions.includes("isolated")) ??
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
 * A hunt after some events. The same events give the same hunt, so it can be played again from its file.
 *
 * @param events What was done, in order.
 */
export function foldHunt(harness: Harness, task: HuntTask, events: readonly HuntEvent[]): HuntState {
  return events.reduce(stepHunt, startHunt(harness, task));
}

/** What changes with an event, beside the step itself. */
type Change = Partial<Omit<HuntState, "harness" | "task" | "steps" | "minutes">>;

interface Outcome {
  readonly seen: Seen;
  readonly minutes?: number;
  readonly change?: Change;
  readonly probe?: HuntStep["probe"];
}

/** Events that are actions: a hypothesis is asked for before each, where the task asks for one. */
const ACTIONS: ReadonlySet<HuntEvent["kind"]> = new Set(["measure", "look", "wiggle", "drag", "swap"]);

/**
 * A hunt after one more event.
 *
 * @returns The hunt with one more step; its last step says what came of it. After the end nothing changes any more.
 */
export function stepHunt(hunt: HuntState, event: HuntEvent): HuntState {
  if (hunt.isEnded) return hunt;
  const isAction = ACTIONS.has(event.kind);
  const needsWord = hunt.task.asksHypothesis && isAction && !hunt.isHypothesisFresh;
  const outcome: Outcome = needsWord
    ? { seen: { kind: "not-ready", text: "First say what you suspect now." } }
    : act(hunt, event);
  const { seen, minutes = 0, change = {}, probe } = outcome;
  const isDone = seen.kind !== "not-ready" && seen.kind !== "stopped";
  const { state, unplugged } = hunt.setup;
  const step: HuntStep = {
    event,
    seen,
    minutes,
    suspects: hunt.suspects,
    standing: { state, unplugged },
    isProven: hunt.isMeterProven,
    ...(probe ? { probe } : {}),
  };
  return {
    ...hunt,
    ...(isAction && isDone ? { isHypothesisFresh: false } : {}),
    ...change,
    minutes: hunt.minutes + minutes,
    steps: [...hunt.steps, step],
  };
}

function act(hunt: HuntState, event: HuntEvent): Outcome {
  switch (event.kind) {
    case "hypothesis":
      return { seen: done("Noted."), change: { suspects: event.suspects, isHypothesisFresh: true } };
    case "state":
      return setState(hunt, event.to);
    case "open":
      return openConnector(hunt, event.connector);
    case "close":
      return closeConnector(hunt, event.connector);
    case "fit":
      return fitAdapter(hunt, event);
    case "remove":
      return removeAdapter(hunt, event);
    case "zero-leads":
      return {
        seen: done("Leads held together, meter set to zero."),
        minutes: COSTS.readingMinutes / 2,
        change: { areLeadsZeroed: true },
      };
    case "prove-meter":
      return {
        seen: done("The meter shows a point known to be live."),
        minutes: COSTS.readingMinutes,
        change: { isMeterProven: true },
      };
    case "measure":
      return takeMeasure(hunt, event);
    case "look":
    case "wiggle":
    case "drag":
    case "swap":
      return handCheck(hunt, event);
    case "hint":
      return giveHint(hunt, event.level);
    case "name":
      return nameCause(hunt, event);
    case "repair":
      return repair(hunt, event);
    case "try":
      return tryAgain(hunt, event.state);
    case "end":
      return { seen: done("The hunt is over."), change: { isEnded: true } };
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
  hunt: HuntState,
  need: Partial<CheckNeed>,
): { readonly minutes: number; readonly setup: HuntState["setup"] } {
  const { states } = hunt.harness.document;
  const byId = new Map(states.map((state): [string, State] => [state.id, state]));
  const whole: CheckNeed = { state: hunt.setup.state, unplugged: hunt.setup.unplugged, places: [], ...need };
  const { minutes, next } = changeSetup(hunt.setup, whole, { byId, costs: COSTS });
  return { minutes, setup: next };
}

function setState(hunt: HuntState, to: string): Outcome {
  const state = stateOf(hunt.harness, to);
  if (!state) return notReady(`The machine has no state "${to}".`);
  const { minutes, setup } = changeTo(hunt, { state: to });
  return { seen: done(`Machine: ${state.label}.`), minutes, change: { setup, isMeterProven: false } };
}

/** The rule that nothing is unplugged, plugged in or fitted with the key on. */
function keyOffFirst(hunt: HuntState): Seen | undefined {
  const state = stateOf(hunt.harness, hunt.setup.state);
  if (!state || !isKeyOn(state)) return undefined;
  return {
    kind: "stopped",
    rule: "key-off",
    reason:
      "Nothing is unplugged, plugged in, fitted or exchanged with the key on: it arcs at the terminals and can spoil control units.",
    source: "common practice, no source",
    mayInsist: false,
  };
}

const LEFT_ALONE: Seen = {
  kind: "stopped",
  rule: "airbag-or-high-voltage-beside",
  reason: "The connector carries an airbag or high-voltage line, so it is neither opened nor touched for a check.",
  source: "common practice, no source",
  mayInsist: false,
};

function openConnector(hunt: HuntState, id: string): Outcome {
  const connector = hunt.harness.fitted.connectors.get(id);
  if (!connector) return notReady(`There is no connector "${id}" on this build.`);
  if (hunt.setup.unplugged.includes(id)) return notReady(`${id} is open already.`);
  const stopped =
    keyOffFirst(hunt) ?? dangerIn(hunt, { states: accessOf(hunt.harness, connector)?.states, zone: connector.zone });
  if (stopped) return { seen: stopped };
  if (isGuarded(hunt.harness, { type: "connector", id })) return { seen: LEFT_ALONE };
  if (!isPermittedAt(connector, "unplug")) return notReady(`The document does not allow ${id} to be unplugged.`);
  const places = [{ key: `connector ${id}`, minutes: connector.access?.minutes ?? 2 }];
  const { minutes, setup } = changeTo(hunt, { unplugged: [...hunt.setup.unplugged, id], places });
  const isOff =
    !hunt.isRepaired &&
    hunt.task.hidden.faults.some((fault) => fault.kind === "unplugged" && sameConnector(hunt, fault.of, id));
  // Whoever comes to open a connector that was never plugged in sees it.
  const seen: Seen = isOff
    ? { kind: "outcome", outcome: "damage", text: `${id} was not plugged in.`, isHealthy: false }
    : done(`${id} is open${connector.access?.remove === undefined ? "" : ` (${connector.access.remove})`}.`);
  return { seen, minutes, change: { setup } };
}

function sameConnector({ harness }: HuntState, name: string, id: string): boolean {
  return name === id || harness.book.halves.get(name)?.connector.id === id;
}

function closeConnector(hunt: HuntState, id: string): Outcome {
  if (!hunt.setup.unplugged.includes(id)) return notReady(`${id} is not open.`);
  const stopped = keyOffFirst(hunt);
  if (stopped) return { seen: stopped };
  const unplugged = hunt.setup.unplugged.filter((each) => each !== id);
  const { minutes, setup } = changeTo(hunt, { unplugged });
  return { seen: done(`${id} is plugged in and locked.`), minutes, change: { setup } };
}

function fitAdapter(hunt: HuntState, { adapter, at }: { readonly adapter: string; readonly at: string }): Outcome {
  const { harness, fitted } = hunt;
  const found = adapterOf(harness, adapter);
  const key = fittedKey(harness, adapter, at);
  if (!found) return notReady(`There is no adapter "${adapter}".`);
  const owner = ownerOf(harness, at) ?? at;
  if (!key.endsWith(` at ${owner}`) && found.method !== "relay-extension")
    return notReady(`${adapter} does not fit ${owner}.`);
  if (fitted.includes(key)) return notReady(`${adapter} is fitted already.`);
  const connector = harness.fitted.connectors.get(owner);
  const stopped =
    keyOffFirst(hunt) ??
    dangerIn(hunt, { states: connector ? accessOf(harness, connector)?.states : "any", zone: connector?.zone });
  if (stopped) return { seen: stopped };
  if (connector && isGuarded(harness, { type: "connector", id: owner })) return { seen: LEFT_ALONE };
  const access = hunt.setup.reached.includes(`connector ${owner}`) ? 0 : (connector?.access?.minutes ?? 2);
  const places = [{ key: `adapter ${key}`, minutes: access + (found.minutes ?? 1) }];
  const { minutes, setup } = changeTo(hunt, { places });
  return { seen: done(`${found.label} is fitted at ${owner}.`), minutes, change: { setup, fitted: [...fitted, key] } };
}

function removeAdapter(hunt: HuntState, { adapter, at }: { readonly adapter: string; readonly at: string }): Outcome {
  const key = fittedKey(hunt.harness, adapter, at);
  if (!hunt.fitted.includes(key)) return notReady(`${adapter} is not fitted there.`);
  const stopped = keyOffFirst(hunt);
  if (stopped) return { seen: stopped };
  const fitted = hunt.fitted.filter((each) => each !== key);
  return { seen: done(`${adapter} is taken off.`), minutes: COSTS.closeMinutes, change: { fitted } };
}

function takeMeasure(hunt: HuntState, event: Extract<HuntEvent, { kind: "measure" }>): Outcome {
  const state = stateOf(hunt.harness, hunt.setup.state);
  if (!state) return notReady("The machine is in no known state.");
  const { seen, probe, places, damage } = measure(hunt, state, event);
  if (seen.kind !== "reading") return { seen };
  const { minutes, setup } = changeTo(hunt, { places });
  const change: Change = { setup, ...(damage ? { damage: [...hunt.damage, damage] } : {}) };
  return { seen, minutes: minutes + COSTS.readingMinutes, change, ...(probe ? { probe } : {}) };
}

function nameCause(hunt: HuntState, { cause }: Extract<HuntEvent, { kind: "name" }>): Outcome {
  const named = candidateOf(hunt.harness, cause);
  if (!named) return notReady(`This machine has no such fault: ${cause}.`);
  return { seen: { kind: "named", text: `${named.label}.` } };
}

function repair(hunt: HuntState, { cause }: Extract<HuntEvent, { kind: "repair" }>): Outcome {
  const stopped = keyOffFirst(hunt);
  if (stopped) return { seen: stopped };
  const wanted = candidateOf(hunt.harness, cause);
  if (!wanted) return notReady(`This machine has no such fault to repair: ${cause}.`);
  const minutes = repairMinutes(wanted.repair);
  const isCause = !hunt.isRepaired && wanted.repair === hunt.task.hidden.candidate.repair;
  const damage = hunt.damage.map((each) =>
    wanted.repair === `${each.item.type} ${each.item.id}` ? { ...each, isRepaired: true } : each,
  );
  // A fuse that the fault has blown is no good part, though it blows again.
  const isBlown = !hunt.isRepaired && blownBy(hunt.task.hidden).some((of) => wanted.repair === `fuse ${of}`);
  const isDamage = damage.some((each, at) => each.isRepaired !== hunt.damage[at]?.isRepaired);
  // A trainee is not told here whether it helped: that is what trying is for.
  const seen = done(`Done: ${wanted.repair}.`);
  if (isCause) return { seen, minutes, change: { isRepaired: true, damage } };
  return {
    seen,
    minutes,
    change: { damage, ...(isDamage || isBlown ? {} : { needless: [...hunt.needless, wanted.repair] }) },
  };
}

function tryAgain(hunt: HuntState, to: string): Outcome {
  const state = stateOf(hunt.harness, to);
  if (!state) return notReady(`The machine has no state "${to}".`);
  const { minutes, setup } = changeTo(hunt, { state: to });
  return {
    seen: tryComplaint({ ...hunt, setup }),
    minutes: minutes + TRY_MINUTES,
    change: { setup, isMeterProven: false },
  };
}

/** Points a hint of each level costs. Judgement; no source. */
export const HINT_POINTS = { 1: 1, 2: 2, 3: 4 } as const;
/** Hints of one level in a hunt. */
const MOST_OF_LEVEL = 3;

/**
 * Gives a hint: level 1 what to ask oneself, level 2 where to look next, level 3 the check itself. Hints fade: tasks of level 2 give no
 * check any more, tasks of level 3 only the question; and each level answers three times at most.
 *
 * Source: whole problems, hints on request at several depths that fade are the method of coached practice (A. Lesgold and others, ERIC
 * ED299450, 1988); the numbers here are judgement.
 */
function giveHint(hunt: HuntState, level: 1 | 2 | 3): { readonly seen: Seen; readonly change?: Partial<HuntState> } {
  const deepest = 4 - hunt.task.level;
  if (level > deepest)
    return { seen: { kind: "not-ready", text: `At this level of task hints go down to level ${deepest}.` } };
  const used = hunt.steps.filter(({ seen }) => seen.kind === "hint" && seen.level === level).length;
  if (used >= MOST_OF_LEVEL)
    return { seen: { kind: "not-ready", text: "There are no more hints of this level in this hunt." } };
  const text = hintText(hunt, level);
  const points = HINT_POINTS[level];
  return { seen: { kind: "hint", level, text, points }, change: { hintPoints: hunt.hintPoints + points } };
}

function hintText(hunt: HuntState, level: 1 | 2 | 3): string {
  const belief = beliefOf(hunt);
  if (!belief) return "On these circuits no check is suggested.";
  const next = suggestNext(belief, hunt.setup);
  if (next.kind !== "check") {
    if (level === 1)
      return "Look at what you have found: is there a check left that would tell you more than a repair?";
    return next.kind === "repair" || next.kind === "repair-in-order"
      ? "What was found is enough to name a cause."
      : "What was found fits no single fault: take the last readings again.";
  }
  const { check } = next;
  if (level === 1) {
    const isMeter = check.kind === "volts" || check.kind === "ohms";
    return isMeter
      ? "What is common to everything that fails, and in none of what works? Choose a point that parts it in halves and is quickly reached."
      : "Before the meter: is there something that can be seen, moved or felt where the suspects lie?";
  }
  const where = check.points.join(" and ");
  if (level === 2) return `Next: something at ${check.points[0] ?? where}. Machine: ${check.condition.toLowerCase()}.`;
  const off = check.unplugged.length > 0 ? ` with ${check.unplugged.join(", ")} open` : "";
  return `${check.title}, machine: ${check.condition.toLowerCase()}${off}. Expected if all is well: ${check.expected}.`;
}

function beliefOf(hunt: HuntState): Belief | undefined {
  const job = jobOfTask(hunt.harness, hunt.task);
  return job.ok ? hunt.steps.reduce(beliefAfter, firstBelief(job.value)) : undefined;
}
