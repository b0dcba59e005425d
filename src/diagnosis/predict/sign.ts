import { addTo } from "../../base/index.ts";
import { isKeyOn, lookUpPoint, mainTerminals, pointKey, type Harness, type State } from "../../harness-model/index.ts";
import type { Fault } from "../../simulation/index.ts";
import { FLOATING, fromScale, toScale, UNIT_OF_METER, UNKNOWN } from "../belief/meter-scale.ts";
import type { LocalPoints } from "./local-circuit.ts";
import { makeReadingStore, type StorePair } from "./reading-store.ts";

/** How well codes and functions tell. Common practice, no source. */
export const TRUST = {
  /** A code that the fault should set is set; one that it should not set is set all the same. */
  set: 0.95,
  setWithoutCause: 0.02,
  /** The same where the code is judged by an effect the static model cannot follow, such as missing pulses. */
  softSet: 0.7,
  softWithoutCause: 0.06,
  /** How surely a code is set and noticed if the fault should set it, when nobody said that it is absent. */
  notMentioned: 0.7,
  bad: 0.93,
  badWithoutCause: 0.03,
  /** A function is bad where nothing electrical is wrong: blocked, empty, worn, misused. */
  badOtherwise: 0.7,
} as const;

/** One reading that a code or a function is judged by: volts, ohms, or the current in an element. */
export type SignProbe = StorePair & { readonly state: string };

/** What a probe shows in volt, ohm or ampere; `floating` and `unsteady` are no numbers, undefined is what cannot be told. */
export type Shown = number | "floating" | "unsteady" | undefined;

/** A code or function, with how likely it shows by what its probes show. */
export interface Sign {
  readonly probes: readonly SignProbe[];
  /** Probability of the sign from what the probes show now and in the healthy machine, in the order of the probes. */
  readonly share: (now: readonly Shown[], normal: readonly Shown[]) => number;
}

/**
 * How likely signs are under fault sets, of which the first is the healthy machine. Given points, the rest of the machine is reduced to what
 * it amounts to at them.
 *
 * @returns For each sign one share for every set after the first.
 */
export function sharesOfSigns<Key>(
  harness: Harness,
  signs: ReadonlyMap<Key, Sign>,
  { faultSets, points }: { readonly faultSets: readonly (readonly Fault[])[]; readonly points?: LocalPoints },
): ReadonlyMap<Key, Float64Array> {
  const ofState = new Map<string, SignProbe[]>();
  for (const { probes } of signs.values()) for (const probe of probes) addTo(ofState, probe.state, probe);
  const rows = new Map<SignProbe, readonly Shown[]>();
  const sets = faultSets.map((_, index) => index);
  for (const [state, pairs] of ofState) {
    const question = { setup: { state, unplugged: [] }, pairs, faultSets, ...(points ? { points } : {}) };
    const store = makeReadingStore(harness, question);
    pairs.forEach((pair, index) =>
      rows.set(
        pair,
        [...store.row(index, sets)].map((point) => shown(point, pair)),
      ),
    );
  }
  const shareOf = (sign: Sign, set: number): number =>
    sign.share(
      sign.probes.map((probe) => rows.get(probe)?.[set]),
      sign.probes.map((probe) => rows.get(probe)?.[0]),
    );
  return new Map([...signs].map(([key, sign]) => [key, Float64Array.from(sets.slice(1), (set) => shareOf(sign, set))]));
}

function shown(point: number, { kind }: SignProbe): Shown {
  if (point === UNKNOWN) return undefined;
  if (point === FLOATING) return "floating";
  return Number.isNaN(point) ? "unsteady" : fromScale(point, UNIT_OF_METER[kind]);
}

/** Volts as a module takes them: what floats is at 0 V. */
export function voltOf(value: Shown): number {
  return typeof value === "number" ? value : 0;
}

/** A change of a voltage that a person or a module notices: an eighth. */
const NOTICED_VOLT = 0.12;
/** Below this nothing works and nobody tells a difference, in volt. */
const NOTHING_VOLT = 0.3;

/** Whether a person or a module would notice that a voltage is not what it was. */
export function isVoltNoticed(now: Shown, normal: Shown): boolean {
  if (now === undefined || normal === undefined) return false;
  if (now === "unsteady" || normal === "unsteady") return now !== normal;
  const [volt, normalVolt] = [voltOf(now), voltOf(normal)];
  if (Math.max(Math.abs(volt), Math.abs(normalVolt)) < NOTHING_VOLT) return false;
  return now === "floating" || Math.abs(toScale(volt, "V") - toScale(normalVolt, "V")) > NOTICED_VOLT;
}

/** Whether ohms are plainly not what they were: by more than a third. */
export function isOhmNoticed(now: Shown, normal: Shown): boolean {
  if (typeof now !== "number" || typeof normal !== "number" || now === normal) return false;
  return Math.abs(toScale(now, "Ω") - toScale(normal, "Ω")) > 0.35;
}

/** States of a machine by what they are good for. */
interface UsefulStates {
  /** Supply isolated, for ohms. */
  readonly off: State | undefined;
  /** Key on and nothing else. */
  readonly on: State | undefined;
  /** All states with the key on. */
  readonly live: readonly State[];
}

/** Sorts the states of a machine. */
export function usefulStates({ document: { states } }: Harness): UsefulStates {
  const live = states.filter(isKeyOn);
  return {
    off: states.find(({ conditions }) => conditions.includes("battery-disconnected")),
    on: live.find(({ conditions }) => conditions.length === 1 && conditions[0] === "key-on") ?? live[0],
    live,
  };
}

/** The terminals between which a control unit is fed, and the volts it needs. */
interface ModuleFeed {
  readonly positive: string;
  readonly negative: string;
  readonly leastVolt: number;
}

/** How a control unit is fed; undefined where the document does not say. */
export function feedOf(harness: Harness, module: string | undefined): ModuleFeed | undefined {
  const component = harness.fitted.components.get(module ?? "");
  if (!component?.needs) return undefined;
  const nameOf = (address: string): string => {
    const point = lookUpPoint(harness.book, address, { by: "element", component });
    return point.kind === "none" ? address : pointKey(point);
  };
  const { positive, negative, leastVolt } = component.needs;
  return { positive: nameOf(positive), negative: nameOf(negative), leastVolt };
}

/** What a control unit measures against: its own ground where the document tells it, else the main negative. */
export function groundOf(harness: Harness, module: string | undefined): string | undefined {
  return feedOf(harness, module)?.negative ?? harness.nodes[mainTerminals(harness).negative ?? -1]?.key;
}
