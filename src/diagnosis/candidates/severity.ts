import type { Harness } from "../../model/index.ts";
import { healthyCircuit } from "../predict/healthy-circuit.ts";

/** Largest healthy current of each part over the states of the machine, in ampere, by what the part belongs to. */
export type PartCurrents = ReadonlyMap<string, number>;

const known = new WeakMap<Harness, PartCurrents>();

/**
 * The largest current that each wire, contact, joint and element carries in any state of the healthy machine.
 *
 * @param harness The harness.
 * @returns Ampere by owner: `W78`, `XE1:1`, `A3.F3`, `W78@SP13`. States without a steady solution are passed over.
 */
export function partCurrents(harness: Harness): PartCurrents {
  const before = known.get(harness);
  if (before) return before;
  const currents = new Map<string, number>();
  for (const state of harness.document.states) {
    const answer = healthyCircuit(harness, state.id);
    if (answer.kind !== "settled") continue;
    const { list, values, solved } = answer;
    list.parts.forEach((part, at) => {
      const ohm = values.ohm[at] ?? Infinity;
      const [from, to] = [list.shape.from[at] ?? 0, list.shape.to[at] ?? 0];
      if (!(ohm > 0) || ohm === Infinity || solved.islands[from] !== solved.islands[to]) return;
      const volt = (solved.volts[from] ?? 0) - (solved.volts[to] ?? 0) + (values.volt[at] ?? 0);
      currents.set(part.owner, Math.max(currents.get(part.owner) ?? 0, Math.abs(volt / ohm)));
    });
  }
  known.set(harness, currents);
  return currents;
}

/** Share of the supply that a bad joint takes at each severity: noticed at the limit, plainly bad, all but open. */
const DROP_SHARES = [0.06, 0.35, 3] as const;
/** Below this the current says nothing of what resistance would matter. */
const LEAST_AMPERE = 2e-5;

/**
 * Added resistances worth telling apart on a part that carries a current: those that take a little, a third, or nearly all of the
 * voltage.
 *
 * @param ampere Largest healthy current.
 * @param nominalVolt Nominal voltage of the machine.
 * @returns Ohms, rising.
 */
export function resistanceLevels(ampere: number, nominalVolt: number): readonly number[] {
  if (ampere < 1e-9) return [50, 1000, 20_000];
  const volt = ampere < 0.05 ? 5 : nominalVolt;
  return DROP_SHARES.map((share) => Number(((share * volt) / Math.max(ampere, LEAST_AMPERE)).toPrecision(2)));
}
