import type { BranchValues } from "../solver/branch-set.ts";
import {
  ohmBetween,
  solveValues,
  voltsOfUnitCurrent,
  type ContradictoryNetwork,
  type SolvedNetwork,
} from "../solver/solve-network.ts";
import {
  AT_FIRST,
  findInconsistent,
  hiddenTimes,
  isOnTheEdge,
  keyOf,
  restlessUnits,
  standingOf,
  unitsKey,
  unitsToMove,
  valuesOf,
  type InconsistentElement,
  type Modes,
  type UnitState,
} from "./modes.ts";
import { solveNear, type NearbySolutions } from "./nearby-solutions.ts";
import { controlledParts, isHidden, type Part, type PartList } from "./part.ts";

/** Parts in a state they stay in. */
export interface OperatingPoint {
  readonly kind: "settled";
  readonly list: PartList;
  readonly modes: Modes;
  readonly values: BranchValues;
  readonly solved: SolvedNetwork;
}

/** Why there is no state that stays. */
export type NoOperatingPoint =
  /** Ideal sources that cannot all be true, by key. */
  | { readonly kind: "contradictory"; readonly sources: readonly string[] }
  /** Relays, modules, regulators or diodes that keep changing, by key. */
  | { readonly kind: "no-steady-state"; readonly noOperatingPoint: readonly string[] };

/** What was found of parts that do not settle: where they keep changing, how everything stands in turn. */
type Unsettled = NoOperatingPoint & { readonly turns?: readonly OperatingPoint[] };

/** Why parts do not settle, without how they stand in turn. */
export function reasonOf(unsettled: Unsettled): NoOperatingPoint {
  return unsettled.kind === "contradictory"
    ? { kind: "contradictory", sources: unsettled.sources }
    : { kind: "no-steady-state", noOperatingPoint: unsettled.noOperatingPoint };
}

/** More rounds than any sensible machine needs. */
const MOST_ROUNDS = 500;
/** A resistance beside a switch that changes by a smaller share than this is known. */
const SAME_SHARE = 1e-9;

/**
 * Finds how relays, control units, regulators, batteries, diodes, electronics and pulsed drivers stand, starting with everything at rest
 * and every control unit awake: the way a machine gets into a state. All that is out of place changes at once; if that goes round in a
 * circle, one at a time; if that does too, there is no steady state.
 *
 * @param held A tester that is put to the machine once it stands in these modes, instead of a machine that comes from rest. What is found
 *   is the machine in the modes that the tester leaves it in, solved without the tester.
 * @param nearby Solutions of a machine that differs in few branches; the answer is the same without.
 */
export function settle(
  list: PartList,
  held?: { readonly modes: Modes; readonly testLoad: TestLoad },
  nearby?: NearbySolutions,
): OperatingPoint | Unsettled {
  let modes = held?.modes ?? AT_FIRST;
  let oneByOne = false;
  const seen = new Set<string>();
  const moved = new Set<string>();
  const seenUnits = new Set<string>([unitsKey(modes.units)]);
  const visited: OperatingPoint[] = [];
  for (let round = 0; round < MOST_ROUNDS; round++) {
    const values = valuesOf(list, modes);
    const solved = solveIn(list, modes, { values, nearby });
    if (solved.kind === "contradictory") return contradiction(list, solved.branches);
    const operatingPoint: OperatingPoint = { kind: "settled", list, modes, values, solved };
    visited.push(operatingPoint);
    const metered = held ? { ...operatingPoint, ...withTestLoadSolved(solved, held.testLoad) } : operatingPoint;
    const inconsistent = findInconsistent(list, modes, metered);
    if (inconsistent.length === 0) {
      const units = unitsToMove(list, modes, metered.solved);
      if (units.size > 0) {
        modes = { ...modes, units: unitsAfter(modes.units, units) };
        for (const id of units.keys()) moved.add(id);
        const unitState = unitsKey(modes.units);
        if (seenUnits.has(unitState)) break;
        seenUnits.add(unitState);
      } else {
        const besideOhm = betterBeside(metered);
        if (!besideOhm) {
          const restless = restlessUnits(list, modes, metered.solved);
          if (restless.length === 0) return operatingPoint;
          const fed = visited.findLastIndex(({ modes: { units } }) => unitsKey(units) !== unitsKey(modes.units));
          return { kind: "no-steady-state", noOperatingPoint: restless, turns: visited.slice(Math.max(fed, 0)) };
        }
        modes = { ...modes, besideOhm };
      }
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
    const taken = oneByOne ? inconsistent.slice(0, 1) : inconsistent;
    for (const flip of taken) moved.add(flip.key);
    modes = setElements(modes, taken);
  }
  // It goes round since it last stood as it stands now; what ended with control units, since they did.
  const since = visited.slice(0, -1).findLastIndex((point) => standingOf(point.modes) === standingOf(modes));
  const sinceUnits = visited.findIndex(({ modes: { units } }) => unitsKey(units) === unitsKey(modes.units));
  const turns = visited.slice(Math.max(since >= 0 ? since + 1 : sinceUnits, 0));
  return { kind: "no-steady-state", noOperatingPoint: [...moved].toSorted(), turns };
}

/** Solves a list in some modes; from nearby solutions where that tells for sure how everything wants to stand. */
function solveIn(
  list: PartList,
  modes: Modes,
  { values, nearby }: { readonly values: BranchValues; readonly nearby: NearbySolutions | undefined },
): SolvedNetwork | ContradictoryNetwork {
  const near = nearby && solveNear(nearby, list, { values, modes });
  if (near && !isOnTheEdge(list, modes, { solved: near.solved, values }, near.before)) return near.solved;
  return solveValues(list.shape, values, list.reference);
}

function unitsAfter(before: Modes["units"], moved: ReadonlyMap<string, UnitState>): Modes["units"] {
  const units = new Map([...before, ...moved]);
  for (const [id, state] of moved) if (state === "awake") units.delete(id);
  return units;
}

/** Better figures for pulsed drivers; undefined when nothing is left to change. */
function betterBeside({ list, modes, solved, values }: OperatingPoint): Modes["besideOhm"] | undefined {
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
  return isBetter ? besideOhm : undefined;
}

function setElements(modes: Modes, inconsistent: readonly InconsistentElement[]): Modes {
  const energised = new Set(modes.energised);
  const regimes = new Map(modes.regimes);
  for (const each of inconsistent) {
    if (each.kind === "coil") {
      if (!energised.delete(each.key)) energised.add(each.key);
    } else if (each.wants === undefined) regimes.delete(each.at);
    else regimes.set(each.at, each.wants);
  }
  return { ...modes, energised, regimes };
}

function contradiction(list: PartList, branches: readonly number[]): NoOperatingPoint {
  const inLoop = branches.flatMap((branch) => list.parts[branch] ?? []);
  const sources = inLoop.filter((part) => part.volt !== 0);
  return { kind: "contradictory", sources: [...new Set(sources.map((part) => part.owner))].toSorted() };
}

/** A resistance held between two nodes of a circuit that was solved without it. */
interface TestLoad {
  readonly red: number;
  readonly black: number;
  readonly ohm: number;
}

/** A circuit with a tester held to it. */
interface SolvedWithTestLoad {
  readonly solved: SolvedNetwork;
  /** Resistance between two nodes, in ohm. */
  readonly ohmBetween: (first: number, second: number) => number;
}

/**
 * The voltages of a solved network with a tester held to it, by superposition: the tester draws what the equivalent source between its
 * tips gives, and that current changes every voltage in proportion. The network is not solved again.
 *
 * Source: Thevenin's theorem and superposition (textbook).
 *
 * @param solved The network without the tester.
 * @param testLoad The tester; between two islands it carries no current and makes them one.
 * @returns The voltages, and the resistance between two nodes as the tester leaves it.
 */
export function withTestLoadSolved(solved: SolvedNetwork, testLoad: TestLoad): SolvedWithTestLoad {
  return {
    solved: attachTestLoad(solved, testLoad),
    ohmBetween: (first, second) => ohmBesideTestLoad(solved, testLoad, [first, second]),
  };
}

function attachTestLoad(solved: SolvedNetwork, { red, black, ohm }: TestLoad): SolvedNetwork {
  const open = (solved.volts[red] ?? 0) - (solved.volts[black] ?? 0);
  if (solved.islands[red] !== solved.islands[black]) return joinIslands(solved, { red, black, open });
  const ampere = open / (ohm + ohmBetween(solved, red, black));
  if (ampere === 0) return solved;
  const unitVolts = voltsOfUnitCurrent(solved, red, black);
  const volts = solved.volts.slice();
  for (let node = 0; node < volts.length; node++) volts[node] = (volts[node] ?? 0) - ampere * (unitVolts[node] ?? 0);
  return { ...solved, volts };
}

/** The island of the red tip comes to stand at the voltage of the black one. */
function joinIslands(
  solved: SolvedNetwork,
  { red, black, open }: { readonly red: number; readonly black: number; readonly open: number },
): SolvedNetwork {
  const [ofRed, ofBlack] = [solved.islands[red] ?? -1, solved.islands[black] ?? -1];
  const volts = solved.volts.slice();
  const islands = solved.islands.slice();
  for (let node = 0; node < volts.length; node++) {
    if (islands[node] !== ofRed) continue;
    islands[node] = ofBlack;
    volts[node] = (volts[node] ?? 0) - open;
  }
  return { ...solved, volts, islands };
}

/**
 * Resistance between two nodes with a tester held to the circuit. Inside one island the tester, large against what is there, is left
 * out; between the two that it joins everything passes through it.
 */
function ohmBesideTestLoad(
  bare: SolvedNetwork,
  testLoad: TestLoad,
  [first, second]: readonly [number, number],
): number {
  const { islands } = bare;
  if (islands[first] === islands[second]) return ohmBetween(bare, first, second);
  const tips = [testLoad.red, testLoad.black];
  const ways = [first, second].map((node) => {
    const tip = tips.find((each) => islands[each] === islands[node]);
    return tip === undefined ? Infinity : ohmBetween(bare, node, tip);
  });
  return ways.reduce((sum, ohm) => sum + ohm, testLoad.ohm);
}

/**
 * The same parts with a resistance held between two nodes, as a meter or a lamp is.
 *
 * @param ohm Resistance of what is held there.
 */
export function withTestLoad(list: PartList, ends: readonly [number, number], ohm: number): PartList {
  const testLoad: Part = {
    key: "tester",
    owner: "tester",
    group: "tester",
    ohm,
    volt: 0,
    present: true,
    control: undefined,
    module: undefined,
    worksWhile: "awake",
    asleepOhm: Infinity,
    tolerance: 0,
    voltTolerance: 0,
  };
  const { shape } = list;
  const grown = {
    nodeCount: shape.nodeCount,
    from: Int32Array.from([...shape.from, ends[0]]),
    to: Int32Array.from([...shape.to, ends[1]]),
  };
  return { ...list, shape: grown, parts: [...list.parts, testLoad] };
}

/**
 * The same standing of everything with another amount hidden in electronics that sleep: how much that is is never known.
 *
 * @param factor What is hidden is this many times its typical resistance.
 * @param nearby Solutions of a machine that differs in few branches, with the same factor; the answer is the same without.
 * @returns The machine solved anew; undefined where nothing sleeps.
 */
export function withHiddenTimes(
  operatingPoint: OperatingPoint,
  factor: number,
  nearby?: NearbySolutions,
): OperatingPoint | undefined {
  const { list, modes, values } = operatingPoint;
  if (!list.parts.some((part, at) => isHidden(part, values.ohm[at]))) return undefined;
  const changed = hiddenTimes(list, values, factor);
  const near = nearby && solveNear(nearby, list, { values: changed, modes });
  const solved = near?.solved ?? solveValues(list.shape, changed, list.reference);
  return solved.kind === "contradictory" ? undefined : { ...operatingPoint, values: changed, solved };
}
