import { keptFor } from "../../base/index.ts";
import { voltAcross } from "../network/modes.ts";
import { drivenAmpere } from "../network/node-volts.ts";
import type { PartList } from "../network/part.ts";
import type { OperatingPoint } from "../network/settle.ts";

/** How much of its work an element does, against the sound machine in the same state. */
export interface FunctionShare {
  /** Current through the element itself, in ampere; of a regulator the volts it gives. */
  readonly amount: number;
  /** The same in the sound machine. */
  readonly soundAmount: number;
  /** Share of the current, of a regulator of the volts; undefined where the sound machine has none in this state. */
  readonly share: number | undefined;
  /** Share of the power in it; undefined where the sound machine has none in this state. */
  readonly wattShare: number | undefined;
  /** Share of the current that the whole supply would drive through the sound element; undefined for a regulator. */
  readonly ofSupply: number | undefined;
}

/**
 * How much of its work an element does: a motor, lamp, coil, actuator, heater, the own consumption of a control unit, a sensor cell, an
 * alternator, a battery, a regulator that supplies sensors (which goes by its volts). It goes by the current through the element itself, so that one which is open has
 * none whatever volts are across it. The speed of a motor and of the starter falls with its volts, which of a sound element go as its
 * current.
 *
 * @param sound The machine without faults, settled in a state.
 * @param now The machine as it is, settled in the same state; whole or reduced to a circuit that has the element.
 * @param element Key of the element, such as `M1.motor`.
 * @returns The shares; undefined where one of the machines does not have the element.
 */
export function functionShare(sound: OperatingPoint, now: OperatingPoint, element: string): FunctionShare | undefined {
  const [before, after] = [amountOf(sound, element), amountOf(now, element)];
  if (!before || !after) return undefined;
  const share = (one: number, other: number): number | undefined => (other > LEAST_AMOUNT ? one / other : undefined);
  const full = supplyVolt(sound.list) / before.ohm;
  return {
    amount: after.amount,
    soundAmount: before.amount,
    share: share(after.amount, before.amount),
    wattShare: share(after.watt, before.watt),
    ofSupply: before.isRegulator || full === 0 ? undefined : after.amount / full,
  };
}

/** Less than this is no current and no power, in ampere and watt. */
const LEAST_AMOUNT = 1e-6;

interface Amount {
  readonly amount: number;
  readonly watt: number;
  readonly ohm: number;
  readonly isRegulator: boolean;
}

function amountOf(point: OperatingPoint, element: string): Amount | undefined {
  const { list, solved, values } = point;
  const numbers = partsOf(list.parts).get(element);
  if (!numbers) return undefined;
  let found: Amount = { amount: 0, watt: 0, ohm: Infinity, isRegulator: false };
  for (const at of numbers) {
    const part = list.parts[at];
    if (!part) continue;
    const volt = voltAcross(solved, list.shape.to[at] ?? 0, list.shape.from[at] ?? 0);
    // Volts that others put across a dead regulator are not its work.
    const isRegulator = part.group === "regulator";
    const ampere = values.ohm[at] === Infinity || values.ohm[at] === 0 ? 0 : Math.abs(drivenAmpere(point, at));
    const isGiving = (values.volt[at] ?? 0) !== 0 && values.ohm[at] !== Infinity;
    const amount = isRegulator ? (isGiving ? Math.abs(volt) : 0) : ampere;
    found = {
      amount: Math.max(found.amount, amount),
      watt: found.watt + ampere * Math.abs(volt),
      ohm: Math.min(found.ohm, part.ohm),
      isRegulator: found.isRegulator || isRegulator,
    };
  }
  return found;
}

/** Numbers of the parts of each element, without what only sits beside it. */
const partsOf = keptFor((parts: PartList["parts"]): ReadonlyMap<string, readonly number[]> => {
  const found = new Map<string, number[]>();
  parts.forEach(({ owner, key, group }, at) => {
    if (key.endsWith("|suppressor") || group === "wire" || group === "joint") return;
    const known = found.get(owner);
    if (known) known.push(at);
    else found.set(owner, [at]);
  });
  return found;
});

function supplyVolt({ parts }: PartList): number {
  return parts.reduce((most, { group, volt }) => (group === "supply" ? Math.max(most, Math.abs(volt)) : most), 0);
}

/** How an element does its work, as a driver sees it. */
export type FunctionGrade = "works" | "weak" | "nothing" | "always-on";

/** What decides between grades, by what the element does. */
interface GradeLimits {
  /** Below this share of its sound current it does nothing. */
  readonly nothing: number;
  /** Below this share it is weak or slow. */
  readonly weak: number;
}

/**
 * Shares of the sound current, of a regulator of the sound volts, between grades. A motor turns slowly on little, a coil of a valve or
 * relay does not move on half, a heater or lamp is cold or dark below a fifth (a twenty-fifth of its power), a control unit works or sleeps, an
 * alternator that gives
 * little leaves the battery empty, and sensors go wrong with a few percent less. Common practice, no source.
 */
export const GRADE_LIMITS = {
  motor: { nothing: 0.25, weak: 0.88 },
  coil: { nothing: 0.5, weak: 0.8 },
  heater: { nothing: 0.2, weak: 0.88 },
  unit: { nothing: 0.3, weak: 0 },
  alternator: { nothing: 0.05, weak: 0.8 },
  regulator: { nothing: 0.5, weak: 0.96 },
} as const satisfies Record<string, GradeLimits>;

/** Off in the sound machine below this share of what the whole supply drives, on above the other. Common practice, no source. */
const [OFF_SHARE, ON_SHARE] = [0.05, 0.3];

/**
 * The grade of a share: works; weak or slow; nothing; on though it should be off.
 *
 * @param how What the element is.
 * @returns The grade; undefined where neither the sound machine nor this one works it in this state, so that nothing can be told.
 */
export function functionGrade(
  { share, ofSupply = 0 }: FunctionShare,
  how: keyof typeof GRADE_LIMITS,
): FunctionGrade | undefined {
  const soundOfSupply = share === undefined ? 0 : share === 0 ? 1 : ofSupply / share;
  if (how !== "regulator" && how !== "alternator" && soundOfSupply < OFF_SHARE)
    return ofSupply > ON_SHARE ? "always-on" : undefined;
  if (share === undefined) return undefined;
  const { nothing, weak } = GRADE_LIMITS[how];
  if (share < nothing) return "nothing";
  return share < weak ? "weak" : "works";
}
