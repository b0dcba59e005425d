import { ohmBetween } from "../solver/ask-solved.ts";
import type { BranchValues } from "../solver/branch-set.ts";
import { solveValues, type SolvedNetwork } from "../solver/solve-network.ts";
import { controlledParts } from "./controlled-parts.ts";
import { findFlips, voltAcross, type Flip } from "./find-flips.ts";
import { withTesterHeld, type Tester } from "./hold-tester.ts";
import { AT_FIRST, valuesOf, type Modes } from "./modes.ts";
import type { PartList } from "./part.ts";

/** Parts in a state they stay in. */
export interface Settled {
  readonly kind: "settled";
  readonly list: PartList;
  readonly modes: Modes;
  readonly values: BranchValues;
  readonly solved: SolvedNetwork;
}

/** Why there is no state that stays. */
export type Unsettled =
  /** Ideal sources that cannot all be true, by key. */
  | { readonly kind: "contradictory"; readonly sources: readonly string[] }
  /** Relays, modules, regulators or diodes that keep changing, by key. */
  | { readonly kind: "no-steady-state"; readonly unsettled: readonly string[] };

/** More rounds than any sensible machine needs. */
const MOST_ROUNDS = 500;
/** A resistance beside a switch that changes by a smaller share than this is known. */
const SAME_SHARE = 1e-9;

/**
 * Finds how relays, modules, regulators, batteries, diodes and pulsed drivers stand, starting with everything at rest and every module
 * alive: the way a machine gets into a state. All that is out of place changes at once; if that goes round in a circle, one at a time;
 * if that does too, there is no steady state.
 *
 * @param list The parts.
 * @param held A tester that is put to the machine once it stands in these modes, instead of a machine that comes from rest. What is found
 *   is the machine in the modes that the tester leaves it in, solved without the tester.
 */
export function settle(list: PartList, held?: { readonly modes: Modes; readonly tester: Tester }): Settled | Unsettled {
  let modes = held?.modes ?? AT_FIRST;
  let oneByOne = false;
  const seen = new Set<string>();
  const moved = new Set<string>();
  for (let round = 0; round < MOST_ROUNDS; round++) {
    const values = valuesOf(list, modes);
    const solved = solveValues(list.shape, values, list.reference);
    if (solved.kind === "contradictory") return contradiction(list, solved.branches);
    const settled: Settled = { kind: "settled", list, modes, values, solved };
    const metered = held ? { ...settled, ...withTesterHeld(solved, held.tester) } : settled;
    const flips = findFlips(list, modes, metered);
    if (flips.length === 0) {
      const next = afterFlips(metered);
      if (next === undefined) return wokenAgain(metered) ?? settled;
      modes = next;
      seen.clear();
      oneByOne = false;
      continue;
    }
    const key = keyOf(modes);
    if (seen.has(key)) {
      if (oneByOne) break;
      oneByOne = true;
      seen.clear();
      moved.clear();
    }
    seen.add(key);
    const taken = oneByOne ? flips.slice(0, 1) : flips;
    for (const flip of taken) moved.add(flip.key);
    modes = applyFlips(modes, taken);
  }
  return { kind: "no-steady-state", unsettled: [...moved].toSorted() };
}

/** Modules that have lost their supply, or else better figures for pulsed drivers; undefined when nothing is left to change. */
function afterFlips({ list, modes, solved, values }: Settled): Modes | undefined {
  const dead = list.modules.filter((need) => !modes.dead.has(need.id) && isStarved(solved, need)).map(({ id }) => id);
  if (dead.length > 0) return { ...modes, dead: new Set([...modes.dead, ...dead]) };
  const besideOhm = new Map<number, number>();
  let isBetter = false;
  for (const at of controlledParts(list)) {
    if (list.parts[at]?.control?.kind !== "duty" || values.ohm[at] === Infinity) continue;
    const own = values.ohm[at] ?? 0;
    const together = ohmBetween(solved, list.shape.from[at] ?? 0, list.shape.to[at] ?? 0);
    const besides = 1 / together - 1 / own;
    const beside = besides > SAME_SHARE / own ? 1 / besides : Infinity;
    const before = modes.besideOhm.get(at);
    besideOhm.set(at, beside);
    if (before === undefined || (beside !== before && Math.abs(beside - before) > SAME_SHARE * before)) isBetter = true;
  }
  return isBetter ? { ...modes, besideOhm } : undefined;
}

function isStarved(
  solved: SolvedNetwork,
  need: { readonly positive: number; readonly negative: number; readonly leastVolt: number },
): boolean {
  return voltAcross(solved, need.positive, need.negative) < need.leastVolt;
}

/** A module that is dead and yet has its supply would wake, load the supply and die again. */
function wokenAgain({ list, modes, solved }: Settled): Unsettled | undefined {
  const woken = list.modules.filter((need) => modes.dead.has(need.id) && !isStarved(solved, need));
  return woken.length > 0 ? { kind: "no-steady-state", unsettled: woken.map(({ id }) => id) } : undefined;
}

function applyFlips(modes: Modes, flips: readonly Flip[]): Modes {
  const energised = new Set(modes.energised);
  const flipped = new Set(modes.flipped);
  for (const flip of flips) {
    if (flip.kind === "coil") toggle(energised, flip.key);
    else toggle(flipped, flip.at);
  }
  return { ...modes, energised, flipped };
}

function toggle<Item>(set: Set<Item>, item: Item): void {
  if (!set.delete(item)) set.add(item);
}

function keyOf(modes: Modes): string {
  return `${[...modes.energised].toSorted().join(" ")}|${[...modes.flipped].toSorted((a, b) => a - b).join(" ")}`;
}

function contradiction(list: PartList, branches: readonly number[]): Unsettled {
  const inLoop = branches.flatMap((branch) => list.parts[branch] ?? []);
  const sources = inLoop.filter((part) => part.volt !== 0);
  return { kind: "contradictory", sources: [...new Set(sources.map((part) => part.owner))].toSorted() };
}
