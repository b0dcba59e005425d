import { seededRandom } from "../../base/index.ts";
import type { WorkSetup } from "../../diagnosis/index.ts";
import type { Fault, Probe, OperatingConditions } from "../../simulation/index.ts";
import type { Access, Adapter, Harness, State } from "../../harness-model/index.ts";
import { contentHash, type ExerciseEvent } from "../../job-records/index.ts";
import { isReachableIn } from "../../measurement-safety/index.ts";
import type { Item } from "../../connectivity/index.ts";
import type { CodeProblem } from "../code/task-code.ts";
import type { Level } from "../drills/drill.ts";
import type { InsertedFault } from "./inserted-fault.ts";
import { findSigns, type FunctionSign, type Signs } from "./signs.ts";

/** What the meter shows. */
export interface Display {
  /** As on the display: digits and sign, `OL`, or what it wanders through. */
  readonly text: string;
  readonly unit: "V" | "Ω" | "A";
  /** The value as displayed; absent for `OL` and for a display that wanders. */
  readonly value?: number;
  readonly is: "value" | "overload" | "wanders";
  /** What a display that wanders showed, one after the other. */
  readonly samples?: readonly string[];
  /** What a person at the meter may notice beside the figure. */
  readonly notes: readonly string[];
}

/** What came of an event. */
export type Seen =
  | { readonly kind: "done"; readonly text: string }
  /** It cannot be done as things stand; nothing was done and no time is lost. */
  | { readonly kind: "not-ready"; readonly text: string }
  /** Against the rules of safe work: it was not done, and it counts. */
  | {
      readonly kind: "stopped";
      readonly rule: string;
      readonly reason: string;
      readonly source: string;
      /** It would damage a terminal, seal or wire. The trainee may insist; a danger to people cannot be insisted on. */
      readonly mayInsist: boolean;
    }
  | { readonly kind: "reading"; readonly display: Display; readonly damaged?: string }
  | { readonly kind: "outcome"; readonly outcome: string; readonly text: string; readonly isNormal: boolean }
  | { readonly kind: "hint"; readonly level: 1 | 2 | 3; readonly text: string; readonly points: number }
  | { readonly kind: "tried"; readonly signs: Signs; readonly words: readonly string[] }
  | { readonly kind: "named"; readonly text: string };

/** One event with what came of it. */
export interface ExerciseStep {
  readonly event: ExerciseEvent;
  readonly seen: Seen;
  /** Minutes it took. */
  readonly minutes: number;
  /** What was suspected when it was done. */
  readonly suspects: readonly Item[] | undefined;
  /** Where the machine stood when it was done. */
  readonly standing: { readonly state: string; readonly unplugged: readonly string[] };
  /** What the meter was asked, for a reading. */
  readonly probe?: Probe;
  /** The meter had been proven on a live point. */
  readonly isProven: boolean;
}

/** Damage done in the hunt; a terminal spread by a tip makes contact now and then only. */
interface Damage {
  /** The contact or wire. */
  readonly item: Item;
  readonly how: string;
  readonly isRepaired: boolean;
}

/** Where a hunt stands. It follows from the task and the events. */
export interface ExerciseState {
  readonly harness: Harness;
  readonly task: FaultExercise;
  readonly setup: WorkSetup;
  /** Adapters that are fitted, as `adapter at connector`. */
  readonly fitted: readonly string[];
  readonly areLeadsZeroed: boolean;
  /** The meter was held to a live point since the state last changed. */
  readonly isMeterProven: boolean;
  readonly minutes: number;
  readonly steps: readonly ExerciseStep[];
  readonly suspects: readonly Item[] | undefined;
  /** A hypothesis was stated since the last action. */
  readonly isHypothesisFresh: boolean;
  readonly damage: readonly Damage[];
  /** Whether the hidden fault has been mended. */
  readonly isRepaired: boolean;
  /** Repair groups done that mended nothing. */
  readonly needless: readonly string[];
  readonly hintPoints: number;
  readonly isEnded: boolean;
}

/** Functions named one by one before the rest is counted. */
const MOST_NAMED = 5;

/**
 * The complaint of the operator: what fails in which state, the DTCs, whether it is intermittent. No part of the
 * cause is named that is not itself a sign.
 *
 * @param isIntermittent Whether it is intermittent.
 */
export function complaintWords(harness: Harness, signs: Signs, isIntermittent: boolean): readonly string[] {
  const { codes, functions } = signs;
  const words = functions.slice(0, MOST_NAMED).map((sign) => say(harness, sign));
  if (functions.length > MOST_NAMED) words.push(`${functions.length - MOST_NAMED} more functions fail.`);
  if (codes.length > 0) words.push(`The diagnostic tool shows DTC ${codes.join(", ")}.`);
  else if (functions.length > 0) words.push("The diagnostic tool shows no DTC.");
  if (isIntermittent) words.push("The fault is intermittent. It is worse on rough ground.");
  return words;
}

function say(harness: Harness, { component, what, state }: FunctionSign): string {
  const label = harness.fitted.components.get(component)?.label ?? component;
  const when = harness.document.states.find((each) => each.id === state)?.label ?? state;
  switch (what) {
    case "dead":
      return `${label} (${component}) does not work. State: ${when.toLowerCase()}.`;
    case "weak":
      return `${label} (${component}) is weak. State: ${when.toLowerCase()}.`;
    case "on":
      return `${label} (${component}) works although it is switched off. State: ${when.toLowerCase()}.`;
    case "unseen":
      return `The machine reads the wrong position of ${label} (${component}). State: ${when.toLowerCase()}.`;
  }
}

/** Fraction of readings at which an intermittent fault happens to fail. Common practice, no source. */
const FAILS_NOW = 0.15;

/**
 * The faults that are present now: the inserted one as long as it is not repaired, and terminals damaged in the exercise. Intermittent
 * faults fail once in a while, by the draw of the task.
 *
 * @param isMoved Whether everything intermittent is moved, and so fails.
 */
function faultsNow(exercise: ExerciseState, isMoved = false): readonly Fault[] {
  const { task, isRepaired, damage, steps } = exercise;
  const isFailing = (key: string): boolean => isMoved || happens(task.number, `${key} ${steps.length}`, FAILS_NOW);
  const hidden = isRepaired || (task.hidden.isIntermittent && !isFailing("hidden")) ? [] : task.hidden.faults;
  const spread = damage.flatMap(({ item, isRepaired: isWhole }): readonly Fault[] =>
    isWhole || item.type !== "contact" || !isFailing(item.id) ? [] : [{ kind: "open", of: item.id }],
  );
  return [...hidden, ...spread];
}

/** The situation that the meter is held into. */
export function conditionsNow(exercise: ExerciseState): OperatingConditions {
  const { state, unplugged } = exercise.setup;
  return { state, unplugged, faults: faultsNow(exercise) };
}

/** Minutes to try the complaint and read the codes. Common practice, no source. */
export const TRY_MINUTES = 2;

/** A state of the machine by its id. */
export function stateOf({ document }: Harness, id: string): State | undefined {
  return document.states.find((state) => state.id === id);
}

/** Hazards that hurt a person who reaches in while they hold. */
const DANGERS: ReadonlySet<string> = new Set(["rotating", "crush", "hot", "boosted-voltage"]);

/** Stops a person who reaches where parts rotate, crush, burn or carry raised voltage in the present state, and only there. */
export function dangerIn(
  { harness, setup }: ExerciseState,
  { states, zone }: { readonly states: Access["states"]; readonly zone?: string | undefined },
): Seen | undefined {
  const hazards = harness.document.zones.find(({ id }) => id === zone)?.hazards ?? [];
  const hazard = hazards.find(
    ({ kind, states }) => DANGERS.has(kind) && (states?.some((id) => id === setup.state) ?? false),
  );
  if (hazard) {
    const reason = `WARNING: ${hazard.text}. Keep hands and probes away in this state.`;
    return { kind: "stopped", rule: "danger-of-place", reason, source: "harness document", mayInsist: false };
  }
  const state = harness.document.states.find(({ id }) => id === setup.state);
  const isOut = state !== undefined && !isReachableIn(states, state);
  return isOut ? { kind: "not-ready", text: "There is no access to this location in this state." } : undefined;
}

/** The symptoms and DTCs now: connectors left disconnected show as well. */
export function tryComplaint(exercise: ExerciseState): Seen {
  const { harness, setup } = exercise;
  const faults: readonly Fault[] = [
    ...faultsNow(exercise, true),
    ...setup.unplugged.map((of): Fault => ({ kind: "unplugged", of })),
  ];
  const signs = findSigns(harness, faults);
  if (!signs)
    return {
      kind: "outcome",
      outcome: "unstable",
      text: "A part of the machine keeps switching on and off.",
      isNormal: false,
    };
  const words = complaintWords(harness, signs, false);
  return { kind: "tried", signs, words: words.length > 0 ? words : ["Everything works. No DTC comes back."] };
}

/** A fault-finding exercise: the inserted fault, and its symptoms. */
export interface FaultExercise {
  /** The code, or the title of a written task. */
  readonly title: string;
  readonly build: string;
  readonly level: Level;
  /** What chance in the exercise is drawn from: floating readings, inspections that show nothing. */
  readonly number: number;
  readonly hidden: InsertedFault;
  readonly signs: Signs;
  /** The complaint, a sentence each. */
  readonly complaint: readonly string[];
  readonly asksHypothesis: boolean;
}

/** A task with the machine it is played on. */
export interface ReadyExercise {
  readonly harness: Harness;
  readonly task: FaultExercise;
}

/** Why there is no exercise. */
export type ExerciseProblem =
  | CodeProblem
  | {
      readonly code: "no-fault" | "wrong-fault" | "no-sign" | "not-told" | "not-an-exercise" | "unknown-build";
      readonly message: string;
    };

/**
 * A number that looks random and is fixed by a task and what it is drawn for, so that a replayed exercise shows the same.
 *
 * @returns A whole number, 0 to 9999.
 */
export function drawOf(number: number, key: string): number {
  const word = Number.parseInt(contentHash(`${number} ${key}`).slice(0, 8), 16);
  return seededRandom(word).integer(0, 9999);
}

/** Whether something that happens with a share of 0 to 1 happens this time. */
export function happens(number: number, key: string, share: number): boolean {
  return drawOf(number, key) < share * 10_000;
}

/** The connector a point belongs to, if it is a contact. */
export function ownerOf(harness: Harness, point: string): string | undefined {
  const colon = point.lastIndexOf(":");
  if (colon < 0) return undefined;
  const name = point.slice(0, colon);
  return harness.book.sides.get(name)?.connector.id ?? harness.book.connectors.get(name)?.id;
}

/** An adapter of the document. */
export function adapterOf(harness: Harness, id: string): Adapter | undefined {
  return harness.document.adapters.find((each) => each.id === id);
}

/** How an adapter on a connector or relay is written among what is fitted: the connector where it fits that, else its first place. */
export function fittedKey(harness: Harness, adapter: string, at: string): string {
  const { fits = [] } = adapterOf(harness, adapter) ?? {};
  const owner = ownerOf(harness, at) ?? at;
  const place = fits.includes(owner) ? owner : fits[0];
  return `${adapter} at ${place ?? owner}`;
}

/**
 * Whether the inserted fault is that a connector is not mated.
 *
 * @param exercise The exercise.
 * @param id Id of the connector.
 */
export function isNotMated({ harness, isRepaired, task }: ExerciseState, id: string): boolean {
  const isOff = ({ of }: { readonly of: string }): boolean =>
    of === id || harness.book.sides.get(of)?.connector.id === id;
  return !isRepaired && task.hidden.faults.some((fault) => fault.kind === "unplugged" && isOff(fault));
}
