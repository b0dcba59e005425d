import type { BranchValues } from "../solver/branch-set.ts";
import { ohmBetween, solveValues, voltsOfUnitCurrent, type SolvedNetwork } from "../solver/solve-network.ts";
import { controlledParts, type CoilPart, type Part, type PartList } from "./part.ts";

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

/** More rounds than any sensible machine needs. */
const MOST_ROUNDS = 500;
/** A resistance beside a switch that changes by a smaller share than this is known. */
const SAME_SHARE = 1e-9;

/**
 * Finds how relays, modules, regulators, batteries, diodes and pulsed drivers stand, starting with everything at rest and every module
 * alive: the way a machine gets into a state. All that is out of place changes at once; if that goes round in a circle, one at a time; if
 * that does too, there is no steady state.
 *
 * @param held A tester that is put to the machine once it stands in these modes, instead of a machine that comes from rest. What is found
 *   is the machine in the modes that the tester leaves it in, solved without the tester.
 */
export function settle(
  list: PartList,
  held?: { readonly modes: Modes; readonly testLoad: TestLoad },
): OperatingPoint | NoOperatingPoint {
  let modes = held?.modes ?? AT_FIRST;
  let oneByOne = false;
  const seen = new Set<string>();
  const moved = new Set<string>();
  for (let round = 0; round < MOST_ROUNDS; round++) {
    const values = valuesOf(list, modes);
    const solved = solveValues(list.shape, values, list.reference);
    if (solved.kind === "contradictory") return contradiction(list, solved.branches);
    const operatingPoint: OperatingPoint = { kind: "settled", list, modes, values, solved };
    const metered = held ? { ...operatingPoint, ...withTestLoadSolved(solved, held.testLoad) } : operatingPoint;
    const inconsistent = findInconsistent(list, modes, metered);
    if (inconsistent.length === 0) {
      const next = afterFlips(metered);
      if (next === undefined) return wokenAgain(metered) ?? operatingPoint;
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
    const taken = oneByOne ? inconsistent.slice(0, 1) : inconsistent;
    for (const flip of taken) moved.add(flip.key);
    modes = setElements(modes, taken);
  }
  return { kind: "no-steady-state", noOperatingPoint: [...moved].toSorted() };
}

/** Modules that have lost their supply, or else better figures for pulsed drivers; undefined when nothing is left to change. */
function afterFlips({ list, modes, solved, values }: OperatingPoint): Modes | undefined {
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
function wokenAgain({ list, modes, solved }: OperatingPoint): NoOperatingPoint | undefined {
  const woken = list.modules.filter((need) => modes.dead.has(need.id) && !isStarved(solved, need));
  return woken.length > 0 ? { kind: "no-steady-state", noOperatingPoint: woken.map(({ id }) => id) } : undefined;
}

function setElements(modes: Modes, inconsistent: readonly InconsistentElement[]): Modes {
  const energised = new Set(modes.energised);
  const flipped = new Set(modes.flipped);
  for (const flip of inconsistent) {
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

function contradiction(list: PartList, branches: readonly number[]): NoOperatingPoint {
  const inLoop = branches.flatMap((branch) => list.parts[branch] ?? []);
  const sources = inLoop.filter((part) => part.volt !== 0);
  return { kind: "contradictory", sources: [...new Set(sources.map((part) => part.owner))].toSorted() };
}

/** More than this beside a switch, in ohm, counts as nothing there: its line then stands where the switch puts it. */
const NOTHING_BESIDE_OHM = 1e9;

/**
 * The resistance that draws, all the time, the average current of a switch that is on for a share of the time.
 *
 * Seen from the switch the rest of the network is a source with a resistance beside it. On, the switch draws V / (on + beside); on
 * average a share of that. A resistance of (on + (1 - share) * beside) / share draws the same, and so gives the right average voltage
 * everywhere, as long as no second switch works in the same circuit in step with the first.
 *
 * @param onOhm Resistance of the switch while it is on.
 * @param share Share of the time it is on, above 0 and below 1.
 * @param besideOhm Resistance of the rest of the network at the switch; undefined before it is known.
 */
function dutyOhm(onOhm: number, share: number, besideOhm: number | undefined): number {
  if (besideOhm === undefined || besideOhm > NOTHING_BESIDE_OHM) return onOhm;
  return (onOhm + (1 - share) * besideOhm) / share;
}

/** How everything stands that follows the voltages around it. */
interface Modes {
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
const AT_FIRST: Modes = {
  energised: new Set(),
  dead: new Set(),
  flipped: new Set(),
  besideOhm: new Map(),
};

/** Least resistance of a conducting diode in ohm, so that it always has a current that can be told. */
const LEAST_DIODE_OHM = 1e-3;

/** Resistance of a conducting diode whose document gives `ohm`. */
function conductingOhm(ohm: number): number {
  return Math.max(ohm, LEAST_DIODE_OHM);
}

/** The values of all parts in given modes. */
function valuesOf(list: PartList, modes: Modes): BranchValues {
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

function setControlled(
  values: BranchValues,
  { part, at, modes }: { readonly part: Part; readonly at: number; readonly modes: Modes },
): void {
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

/** Something that does not stand as the voltages want it. */
type InconsistentElement =
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
interface Found {
  readonly solved: SolvedNetwork;
  readonly values: BranchValues;
  readonly ohmBetween?: ((first: number, second: number) => number) | undefined;
}

/**
 * Lists what does not stand as the voltages want it: relays, diodes, batteries, regulators.
 *
 * @param modes The modes the network was solved in.
 * @param found The solution, with the values it was solved for; with a tester held to it also the resistance it has between two nodes.
 */
export function findInconsistent(list: PartList, modes: Modes, found: Found): readonly InconsistentElement[] {
  const inconsistent: InconsistentElement[] = list.coils
    .filter((coil) => wantsToMove(coil, modes.energised.has(coil.key), found))
    .map(({ key }) => ({ kind: "coil", key }));
  for (const at of controlledParts(list)) {
    const part = list.parts[at];
    if (!part?.present || part.control?.kind === "contact" || part.control?.kind === "duty") continue;
    if (part.module !== undefined && modes.dead.has(part.module)) continue;
    if (wantsToFlip(part, { at, list, isFlipped: modes.flipped.has(at), ...found }))
      inconsistent.push({ kind: "part", at, key: part.key });
  }
  return inconsistent;
}

/** Voltage between two nodes; 0 where no current can flow between them. */
export function voltAcross(solved: SolvedNetwork, first: number, second: number): number {
  if (solved.islands[first] !== solved.islands[second]) return 0;
  return (solved.volts[first] ?? 0) - (solved.volts[second] ?? 0);
}

function wantsToMove(coil: CoilPart, isEnergised: boolean, { solved, values }: Found): boolean {
  const ampere = Math.abs(voltAcross(solved, coil.from, coil.to)) / (values.ohm[coil.at] ?? Infinity);
  return isEnergised ? ampere < coil.dropOutAmpere : ampere >= coil.pullInAmpere;
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
