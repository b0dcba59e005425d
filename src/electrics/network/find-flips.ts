import { ohmBetween } from "../solver/ask-solved.ts";
import type { BranchValues } from "../solver/branch-set.ts";
import type { SolvedNetwork } from "../solver/solve-network.ts";
import { controlledParts } from "./controlled-parts.ts";
import { conductingOhm, type Modes } from "./modes.ts";
import type { CoilPart, Part, PartList } from "./part.ts";

/** Something that does not stand as the voltages want it. */
export type Flip =
  | { readonly kind: "coil"; readonly key: string }
  | { readonly kind: "part"; readonly at: number; readonly key: string };

/** Differences below this, in volt, are rounding. */
const SAME_VOLT = 1e-9;
/** A blocking diode begins to conduct at this much over its forward voltage, in volt; more than rounding, so that it does not flutter. */
const CONDUCTS_VOLT = 1e-6;
/**
 * A conducting diode with less than this across its own resistance, in volt, carries nothing. Even in the least resistance a diode is
 * given that is a nanoampere, far less than a meter draws; and a hundred times the rounding of 12 V.
 */
const NOTHING_VOLT = 1e-12;

/** A solution, as it is looked at for what wants to change. */
export interface Found {
  readonly solved: SolvedNetwork;
  readonly values: BranchValues;
  readonly ohmBetween?: ((first: number, second: number) => number) | undefined;
}

/**
 * Lists what does not stand as the voltages want it: relays, diodes, batteries, regulators.
 *
 * @param list The parts.
 * @param modes The modes the network was solved in.
 * @param found The solution, with the values it was solved for; with a tester held to it also the resistance it has between two nodes.
 */
export function findFlips(list: PartList, modes: Modes, found: Found): readonly Flip[] {
  const flips: Flip[] = list.coils
    .filter((coil) => wantsToMove(coil, modes.energised.has(coil.key), found.solved))
    .map(({ key }) => ({ kind: "coil", key }));
  for (const at of controlledParts(list)) {
    const part = list.parts[at];
    if (!part?.present || part.control?.kind === "contact" || part.control?.kind === "duty") continue;
    if (part.module !== undefined && modes.dead.has(part.module)) continue;
    if (wantsToFlip(part, { at, list, isFlipped: modes.flipped.has(at), ...found }))
      flips.push({ kind: "part", at, key: part.key });
  }
  return flips;
}

/** Voltage between two nodes; 0 where no current can flow between them. */
export function voltAcross(solved: SolvedNetwork, first: number, second: number): number {
  if (solved.islands[first] !== solved.islands[second]) return 0;
  return (solved.volts[first] ?? 0) - (solved.volts[second] ?? 0);
}

function wantsToMove(coil: CoilPart, isEnergised: boolean, solved: SolvedNetwork): boolean {
  const volt = Math.abs(voltAcross(solved, coil.from, coil.to));
  return isEnergised ? volt < coil.dropOutVolt : volt >= coil.pullInVolt;
}

interface AskedPart extends Found {
  readonly at: number;
  readonly list: PartList;
  readonly isFlipped: boolean;
}

function wantsToFlip(part: Part, { at, list, isFlipped, solved, values, ...found }: AskedPart): boolean {
  const from = list.shape.from[at] ?? 0;
  const to = list.shape.to[at] ?? 0;
  const { control } = part;
  const terminalVolt = voltAcross(solved, to, from);
  const driving = (values.volt[at] ?? 0) - terminalVolt;
  switch (control?.kind) {
    case "diode":
      // Between two islands nothing says that current wants to flow.
      if (isFlipped)
        return (
          solved.islands[from] === solved.islands[to] &&
          driving > CONDUCTS_VOLT &&
          staysConducting(part, driving, found.ohmBetween?.(from, to) ?? ohmBetween(solved, from, to))
        );
      // Without current it ties nothing together: what hangs on it alone is floating.
      return driving < NOTHING_VOLT;
    case "battery":
      return isFlipped ? terminalVolt < part.volt - SAME_VOLT : terminalVolt > part.volt + SAME_VOLT;
    case "fold-back":
      return isFlipped
        ? Math.abs(currentUnfolded(part, terminalVolt, driving / control.foldedOhm)) <= control.limitAmpere
        : Math.abs(driving) > control.limitAmpere * part.ohm;
    case "contact":
    case "duty":
    case undefined:
      return false;
  }
}

/** Whether a diode that begins to conduct would carry enough not to stop at once. */
function staysConducting({ ohm }: Part, driving: number, besideOhm: number): boolean {
  const own = conductingOhm(ohm);
  return (driving * own) / (own + besideOhm) > 2 * NOTHING_VOLT;
}

/** What a folded-back regulator would give into the same load if it were not. */
function currentUnfolded(part: Part, terminalVolt: number, ampere: number): number {
  if (ampere === 0) return 0;
  if (ampere > 0 && terminalVolt >= 0) return part.volt / (part.ohm + terminalVolt / ampere);
  return (part.volt - terminalVolt) / part.ohm;
}
