import type { BranchValues } from "../solver/branch-set.ts";
import { dutyOhm } from "./duty.ts";
import type { Part, PartList } from "./part.ts";

/** How everything stands that follows the voltages around it. */
export interface Modes {
  /** Coils that hold their contacts, by key. */
  readonly energised: ReadonlySet<string>;
  /** Modules without enough supply, by id. */
  readonly dead: ReadonlySet<string>;
  /** Parts in their other mode: diode blocking, battery charging, regulator folded back; by number. */
  readonly flipped: ReadonlySet<number>;
  /** Per part that is on for a share of the time: the resistance the rest of the network has at it, in ohm; Infinity before it is known. */
  readonly besideOhm: ReadonlyMap<number, number>;
}

/** Nothing energised, every module alive, diodes conducting, batteries at rest, regulators not folded back. */
export const AT_FIRST: Modes = {
  energised: new Set(),
  dead: new Set(),
  flipped: new Set(),
  besideOhm: new Map(),
};

/** Least resistance of a conducting diode in ohm, so that it always has a current that can be told. */
const LEAST_DIODE_OHM = 1e-3;

/** Resistance of a conducting diode whose document gives `ohm`. */
export function conductingOhm(ohm: number): number {
  return Math.max(ohm, LEAST_DIODE_OHM);
}

/**
 * The values of all parts in given modes.
 *
 * @param list The parts.
 * @param modes The modes.
 */
export function valuesOf(list: PartList, modes: Modes): BranchValues {
  const count = list.parts.length;
  const ohm = new Float64Array(count);
  const volt = new Float64Array(count);
  for (let at = 0; at < count; at++) {
    const part = list.parts[at];
    if (!part) continue;
    volt[at] = part.volt;
    ohm[at] = part.ohm;
    if (!part.present || (part.module !== undefined && modes.dead.has(part.module))) ohm[at] = Infinity;
    else if (part.control) setControlled({ ohm, volt }, { part, at, modes });
  }
  return { ohm, volt };
}

interface ControlledPart {
  readonly part: Part;
  readonly at: number;
  readonly modes: Modes;
}

function setControlled(values: BranchValues, { part, at, modes }: ControlledPart): void {
  const { control } = part;
  const isFlipped = modes.flipped.has(at);
  switch (control?.kind) {
    case undefined:
      return;
    case "contact":
      if (modes.energised.has(control.coil) !== (control.form === "make")) values.ohm[at] = Infinity;
      return;
    case "diode":
      values.ohm[at] = isFlipped ? Infinity : conductingOhm(part.ohm);
      return;
    case "battery":
      if (!isFlipped) return;
      values.ohm[at] = control.chargingOhm;
      values.volt[at] = control.chargingVolt;
      return;
    case "fold-back":
      if (isFlipped) values.ohm[at] = control.foldedOhm;
      return;
    case "duty":
      values.ohm[at] = dutyOhm(part.ohm, control.share, modes.besideOhm.get(at));
  }
}
