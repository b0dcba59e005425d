import type { BranchValues } from "../solver/branch-set.ts";
import { ohmBetween, type SolvedNetwork } from "../solver/solve-network.ts";
import { LIFE_VOLT } from "../tables/typical-parts.ts";
import { controlledParts, isHidden, type CoilPart, type ModuleNeed, type Part, type PartList } from "./part.ts";

/**
 * How a control unit stands: at work; woken but without the supply it needs; pulled down again by its own consumption as soon as it works;
 * or not woken at all.
 */
export type UnitState = "awake" | "unfed" | "starved" | "asleep";

/** What a part with a control is while it is not what it is usually: each belongs to one kind of control. */
type Regime = "blocks" | "rests" | "charges" | "folded" | "shut" | "sleeps" | "wakes" | "sleeps-again" | "brink";

/** How everything stands that follows the voltages around it. */
export interface Modes {
  /** Coils that hold their contacts, by key. */
  readonly energised: ReadonlySet<string>;
  /** Control units that are not awake, by id. */
  readonly units: ReadonlyMap<string, UnitState>;
  /** Parts that are not in their usual regime, by number. */
  readonly regimes: ReadonlyMap<number, Regime>;
  /** Per part that is on for a share of the time: the resistance the rest of the network has at it, in ohm; Infinity before it is known. */
  readonly besideOhm: ReadonlyMap<number, number>;
}

/** Nothing energised, every control unit awake, diodes conducting, batteries and regulators giving, electronics alive. */
export const AT_FIRST: Modes = {
  energised: new Set(),
  units: new Map(),
  regimes: new Map(),
  besideOhm: new Map(),
};

/** How coils and other parts stand, as a text. */
export function keyOf({ energised, regimes }: Modes): string {
  const stands = [...regimes].toSorted(([a], [b]) => a - b).map(([at, regime]) => `${at} ${regime}`);
  return `${[...energised].toSorted().join(" ")}|${stands.join(" ")}`;
}

/** How control units stand, as a text. */
export function unitsKey(units: Modes["units"]): string {
  return [...units]
    .map(([id, state]) => `${id} ${state}`)
    .toSorted()
    .join("|");
}

/** How everything stands, as a text; figures of pulsed drivers do not count. */
export function standingOf(modes: Modes): string {
  return `${keyOf(modes)}|${unitsKey(modes.units)}`;
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

/** Least resistance of a conducting diode in ohm, so that it always has a current that can be told. */
const LEAST_DIODE_OHM = 1e-3;

/** Resistance of a conducting diode whose document gives `ohm`. */
function conductingOhm(ohm: number): number {
  return Math.max(ohm, LEAST_DIODE_OHM);
}

/** Whether a part does what it is there for, as far as its control unit lets it. */
function works({ module, worksWhile }: Part, { units }: Modes): boolean {
  if (module === undefined) return true;
  const unit = units.get(module) ?? "awake";
  switch (worksWhile) {
    case "awake":
      return unit === "awake";
    case "woken":
      return unit !== "asleep";
    case "loaded":
      return unit === "awake" || unit === "starved";
    case "never":
      return false;
  }
}

/** The values of all parts in given modes. */
export function valuesOf(list: PartList, modes: Modes): BranchValues {
  const count = list.parts.length;
  const ohm = new Float64Array(count);
  const volt = new Float64Array(count);
  for (let at = 0; at < count; at++) {
    const part = list.parts[at];
    if (!part) continue;
    if (!part.present) ohm[at] = Infinity;
    else if (!works(part, modes)) ohm[at] = part.asleepOhm;
    else {
      volt[at] = part.volt;
      ohm[at] = part.ohm;
      if (part.control) setControlled({ ohm, volt }, { part, at, modes });
    }
  }
  return { ohm, volt };
}

/** The same values with what hides in electronics that sleep so many times as large. */
export function hiddenTimes({ parts }: PartList, { ohm, volt }: BranchValues, factor: number): BranchValues {
  return { ohm: ohm.map((own, at) => (isHidden(parts[at], own) ? factor * own : own)), volt };
}

function setControlled(
  values: BranchValues,
  { part, at, modes }: { readonly part: Part; readonly at: number; readonly modes: Modes },
): void {
  const { control } = part;
  const regime = modes.regimes.get(at);
  const stand = (ohm: number, volt: number): void => {
    values.ohm[at] = ohm;
    values.volt[at] = volt;
  };
  switch (control?.kind) {
    case undefined:
      return;
    case "contact":
      if (modes.energised.has(control.coil) !== (control.form === "make")) values.ohm[at] = Infinity;
      return;
    case "diode":
      values.ohm[at] = regime === "blocks" ? Infinity : conductingOhm(part.ohm);
      return;
    case "battery":
      // Between its resting and its charging voltage it takes next to nothing.
      if (regime === "rests") stand(Infinity, part.volt);
      // What is bad inside is in the way of charging too.
      else if (regime === "charges" && control.charging)
        stand(control.charging.ohm + Math.max(0, part.ohm - control.wholeOhm), control.charging.volt);
      return;
    case "giver":
      if (regime === "shut") stand(Infinity, 0);
      else if (regime === "folded" && control.foldBack) values.ohm[at] = control.foldBack.ohm;
      return;
    case "electronics":
      if (regime === "sleeps" || regime === "sleeps-again") stand(part.asleepOhm, 0);
      return;
    case "duty":
      values.ohm[at] = dutyOhm(part.ohm, control.share, modes.besideOhm.get(at));
  }
}

/** Something that does not stand as the voltages want it. */
export type InconsistentElement =
  | { readonly kind: "coil"; readonly key: string }
  | { readonly kind: "part"; readonly at: number; readonly key: string; readonly wants: Regime | undefined };

/** Differences below this, in volt, are rounding. */
const SAME_VOLT = 1e-9;
/** A blocking diode begins to conduct at this much over its forward voltage, in volt; more than rounding, so that it does not flutter. */
const CONDUCTS_VOLT = 1e-6;
/**
 * A conducting diode with less than this across its own resistance, in volt, carries nothing. Even in the least resistance a diode is
 * given that is a nanoampere, far less than a meter draws; and a hundred times the rounding of 12 V.
 */
const NOTHING_VOLT = 1e-12;
/** Electronics alive sleep below this at both terminals against the supply's negative, in volt. Common practice, no source. */
const SLEEP_VOLT = LIFE_VOLT / 2;

/** A solution, as it is looked at for what wants to change. */
interface Found {
  readonly solved: SolvedNetwork;
  readonly values: BranchValues;
  readonly ohmBetween?: ((first: number, second: number) => number) | undefined;
}

/**
 * Lists what does not stand as the currents and voltages want it: relays, diodes, batteries, alternators, regulators, electronics.
 *
 * @param modes The modes the network was solved in.
 * @param found The solution, with the values it was solved for; with a tester held to it also the resistance it has between two nodes.
 */
export function findInconsistent(list: PartList, modes: Modes, found: Found): readonly InconsistentElement[] {
  const inconsistent: InconsistentElement[] = list.coils
    .filter((coil) => wantsToMove(coil, modes.energised.has(coil.key), found))
    .map(({ key }) => ({ kind: "coil", key }));
  const cellVolts = highestVolts(list, found.solved);
  for (const at of controlledParts(list)) {
    const part = list.parts[at];
    if (!part?.present || part.control?.kind === "contact" || part.control?.kind === "duty") continue;
    if (!works(part, modes)) continue;
    const regime = modes.regimes.get(at);
    const wants = wantedRegime(part, { at, list, regime, cellVolts, ...found });
    if (wants !== regime) inconsistent.push({ kind: "part", at, key: part.key, wants });
  }
  return inconsistent;
}

/** A voltage nearer than this to where something changes, in volt, asks for a solution without rounding. */
const EDGE_VOLT = 1e-6;

/**
 * Whether a diode, battery, alternator or regulator stands so near to where it changes that the rounding of a changed solution might
 * decide.
 *
 * @param found The changed solution.
 * @param before The solution without rounding that it was made from: where a voltage is as it was there, nothing was rounded.
 */
export function isOnTheEdge(
  list: PartList,
  { regimes }: Modes,
  { solved, values }: Found,
  before: SolvedNetwork,
): boolean {
  return controlledParts(list).some((at) => {
    const part = list.parts[at];
    const kind = part?.control?.kind;
    if (!part?.present || (kind !== "diode" && kind !== "battery" && kind !== "giver")) return false;
    const ends = [list.shape.to[at] ?? 0, list.shape.from[at] ?? 0] as const;
    const terminalVolt = voltAcross(solved, ...ends);
    if (terminalVolt === voltAcross(before, ...ends)) return false;
    const volts = kind === "diode" && regimes.get(at) === "blocks" ? [] : [part.volt, values.volt[at] ?? 0];
    return volts.some((volt) => Math.abs(volt - terminalVolt) < EDGE_VOLT);
  });
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
  readonly regime: Regime | undefined;
  /** By owner of electronics. */
  readonly cellVolts: ReadonlyMap<string, number>;
}

/** The highest voltage against the supply's negative that electronics have at any terminal, by their owner. */
function highestVolts(list: PartList, solved: SolvedNetwork): ReadonlyMap<string, number> {
  const found = new Map<string, number>();
  for (const at of controlledParts(list)) {
    const part = list.parts[at];
    if (part?.control?.kind !== "electronics") continue;
    const ends = [list.shape.from[at] ?? 0, list.shape.to[at] ?? 0];
    const volts = ends.map((node) => Math.abs(voltAcross(solved, node, list.reference)));
    found.set(part.owner, Math.max(found.get(part.owner) ?? 0, ...volts));
  }
  return found;
}

/** The regime that the voltages at a part want it in; undefined for its usual one. */
function wantedRegime(part: Part, { at, list, regime, solved, values, ...found }: AskedPart): Regime | undefined {
  const from = list.shape.from[at] ?? 0;
  const to = list.shape.to[at] ?? 0;
  const { control } = part;
  const terminalVolt = voltAcross(solved, to, from);
  // Of a source that stands the other way round everything does.
  const way = part.volt < 0 ? -1 : 1;
  switch (control?.kind) {
    case "diode": {
      const driving = (values.volt[at] ?? 0) - terminalVolt;
      // Without current it ties nothing together: what hangs on it alone is floating.
      if (regime !== "blocks") return driving < NOTHING_VOLT ? "blocks" : undefined;
      // Between two islands nothing says that current wants to flow.
      const begins =
        solved.islands[from] === solved.islands[to] &&
        driving > CONDUCTS_VOLT &&
        staysConducting(part, driving, found.ohmBetween?.(from, to) ?? ohmBetween(solved, from, to));
      return begins ? undefined : "blocks";
    }
    case "battery": {
      const [here, restVolt] = [way * terminalVolt, way * part.volt];
      const fullVolt = Math.max(restVolt, control.charging ? way * control.charging.volt : Infinity);
      if (regime === "charges") return here < fullVolt - SAME_VOLT ? "rests" : regime;
      if (here > fullVolt + SAME_VOLT) return "charges";
      if (regime === "rests") return here < restVolt - SAME_VOLT ? undefined : regime;
      return here > restVolt + SAME_VOLT ? "rests" : undefined;
    }
    case "giver": {
      const driving = way * (part.volt - terminalVolt);
      if (regime === "shut") return driving > CONDUCTS_VOLT ? undefined : regime;
      if (driving < -SAME_VOLT) return "shut";
      if (!control.foldBack) return undefined;
      const { limitAmpere, ohm } = control.foldBack;
      const isOver =
        regime === "folded"
          ? currentUnfolded(part, way * terminalVolt, driving / ohm) > limitAmpere
          : driving > limitAmpere * part.ohm;
      return isOver ? "folded" : undefined;
    }
    case "electronics": {
      const volt = found.cellVolts.get(part.owner) ?? 0;
      // What comes to life twice and pulls its own feed down each time stays on the brink: it conducts.
      if (regime === "brink") return regime;
      if (regime === "sleeps") return volt > LIFE_VOLT ? "wakes" : regime;
      if (regime === "sleeps-again") return volt > LIFE_VOLT ? "brink" : regime;
      if (volt >= SLEEP_VOLT) return regime;
      return regime === "wakes" ? "sleeps-again" : "sleeps";
    }
    case "contact":
    case "duty":
    case undefined:
      return undefined;
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
  const volt = Math.abs(part.volt);
  return terminalVolt >= 0 ? volt / (part.ohm + terminalVolt / ampere) : (volt - terminalVolt) / part.ohm;
}

/** The units that stand otherwise than their own supply and wake input want, each against its own ground, with how they want to stand. */
export function unitsToMove(
  { modules }: PartList,
  { units }: Modes,
  solved: SolvedNetwork,
): ReadonlyMap<string, UnitState> {
  const moved = new Map<string, UnitState>();
  for (const need of modules) {
    const was = units.get(need.id) ?? "awake";
    const next = unitAfter(need, was, solved);
    if (next !== was) moved.set(need.id, next);
  }
  return moved;
}

function unitAfter(need: ModuleNeed, was: UnitState, solved: SolvedNetwork): UnitState {
  const { positive, negative, wake, leastVolt } = need;
  if (wake !== undefined && voltAcross(solved, wake, negative) < leastVolt) return "asleep";
  const isFed = voltAcross(solved, positive, negative) >= leastVolt;
  switch (was) {
    case "awake":
      return isFed ? "awake" : "unfed";
    case "unfed":
      return isFed ? "starved" : "unfed";
    case "asleep":
      return "awake";
    case "starved":
      return "starved";
  }
}

/** Units that fall asleep under their own consumption and yet have their supply once they do nothing: they would go on and off without end. */
export function restlessUnits({ modules }: PartList, { units }: Modes, solved: SolvedNetwork): readonly string[] {
  return modules
    .filter(({ id }) => units.get(id) === "starved")
    .filter(({ positive, negative, leastVolt }) => voltAcross(solved, positive, negative) >= leastVolt)
    .map(({ id }) => id);
}
