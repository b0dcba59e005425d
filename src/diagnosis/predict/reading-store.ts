import { addTo } from "../../base/index.ts";
import {
  applyFaults,
  drivenAmpere,
  HAND_METER,
  isTouch,
  nearbySolutions,
  ohmBetween,
  settle,
  withHiddenTimes,
  withReadyPlaces,
  type Fault,
  type NearbySolutions,
  type Part,
  type PartList,
  type OperatingPoint,
  type TablePair,
} from "../../simulation/index.ts";
import type { Harness } from "../../harness-model/index.ts";
import { FLOATING, OVER_RANGE, toleranceOf, toScale, UNIT_OF_METER, UNKNOWN, UNSTEADY } from "../belief/meter-scale.ts";
import type { TestSetup } from "../checks/check.ts";
import { localCircuit, type LocalPoints } from "./local-circuit.ts";

/** Readings of one standing, worked out as they are asked for. */
export interface ReadingStore {
  /**
   * Readings of one pair under some fault sets, on the axis of the meter.
   *
   * @param pair Position of the pair in the list of the standing.
   * @param sets Positions of fault sets; what is missing is worked out for all pairs of the standing at once.
   */
  readonly row: (pair: number, sets: readonly number[]) => Float64Array;
  /** Reading of one pair under one fault set. */
  readonly at: (pair: number, set: number) => number;
}

/** Two leads of a meter, or the ends of an element whose current is asked for. */
export type StorePair =
  TablePair | { readonly kind: "current"; readonly of: string; readonly red: string; readonly black: string };

/** What a store is made for. */
interface StoreQuestion {
  readonly setup: TestSetup;
  readonly pairs: readonly StorePair[];
  /** Fault sets by number; the first is the healthy machine. */
  readonly faultSets: readonly (readonly Fault[])[];
  /** What the rest of the machine may be reduced to; it is taken whole where absent. */
  readonly points?: LocalPoints;
}

/**
 * Makes a store of readings.
 *
 * What is worked out stays inside the store, so that asking again costs nothing; the answers are the same whatever was asked before. The
 * meter is taken as drawing no current: with its 10 Mohm even the weakest pull resistors of control units show 2 % less.
 *
 * @param question Standing, pairs, fault sets.
 */
export function makeReadingStore(harness: Harness, question: StoreQuestion): ReadingStore {
  const { pairs, faultSets } = question;
  const known: (Float64Array | undefined)[] = faultSets.map(() => undefined);
  const byName = new Map<string, Float64Array>();
  let circuit: Circuit | undefined;
  let touching: Circuit | undefined;
  const fill = (set: number): Float64Array => {
    circuit ??= circuitFor(harness, question);
    const faults = faultSets[set] ?? [];
    const name = circuit.nameOf(faults);
    let readings = byName.get(name);
    if (!readings) {
      const own = isTouching(faults) ? (touching ??= withTouching(harness, circuit, faultSets)) : circuit;
      readings = readPairs(harness, own, { faults, pairs });
      byName.set(name, readings);
    }
    known[set] = readings;
    return readings;
  };
  const at = (pair: number, set: number): number => (known[set] ?? fill(set))[pair] ?? UNKNOWN;
  const row = (pair: number, sets: readonly number[]): Float64Array => {
    const readings = new Float64Array(sets.length);
    sets.forEach((set, index) => (readings[index] = at(pair, set)));
    return readings;
  };
  return { row, at };
}

/** The parts of a standing, ready to be read. */
interface Circuit {
  /** Undefined where the healthy machine has no steady state. */
  readonly list: PartList | undefined;
  /** What was solved of it: faults that change a few branches follow from that. */
  readonly solutions: Solutions | undefined;
  readonly places: readonly PlacedPair[];
  readonly nameOf: (faults: readonly Fault[]) => string;
}

/** A pair with the numbers of its nodes and, where its current is asked for, of its element; -1 for what this standing does not have. */
interface PlacedPair {
  readonly pair: StorePair;
  readonly red: number;
  readonly black: number;
  /** Faults change parts in their place and add new ones behind them, so the number stays. */
  readonly element: number;
}

function circuitFor(harness: Harness, { setup, pairs, points }: StoreQuestion): Circuit {
  const list = localCircuit(harness, setup, points);
  if (!list) return { list, solutions: undefined, places: [], nameOf: () => "" };
  const places = placePairs(list, pairs);
  const measured = places.flatMap(({ red, black }) => [red, black]);
  return { list, solutions: solutionsOf(list), places, nameOf: sameReadings(list, measured) };
}

/** Solutions of the healthy parts, as usual and with less hidden in what sleeps. */
interface Solutions {
  readonly usual: NearbySolutions;
  readonly lessHidden: NearbySolutions;
}

function solutionsOf(list: PartList): Solutions {
  const isPulsed = list.parts.some(({ control }) => control?.kind === "duty");
  const point = isPulsed ? settle(list) : undefined;
  const besideOhm = point?.kind === "settled" ? point.modes.besideOhm : new Map<number, number>();
  return { usual: nearbySolutions(list, besideOhm), lessHidden: nearbySolutions(list, besideOhm, LESS_HIDDEN) };
}

/** Faults by which things touch, and what blows with them. */
function isTouching(faults: readonly Fault[]): boolean {
  return faults.some(isTouch) && faults.every((fault) => isTouch(fault) || fault.kind === "blown");
}

/** The same parts with a place for everything that may touch, so that one plan of elimination serves for all of it. */
function withTouching(harness: Harness, circuit: Circuit, faultSets: StoreQuestion["faultSets"]): Circuit {
  if (!circuit.list) return circuit;
  const list = withReadyPlaces(harness, circuit.list, faultSets.filter(isTouching).flat());
  return { ...circuit, list, solutions: solutionsOf(list) };
}

function readPairs(
  harness: Harness,
  { list, solutions, places }: Circuit,
  { faults, pairs }: { readonly faults: readonly Fault[]; readonly pairs: readonly StorePair[] },
): Float64Array {
  if (!list) return new Float64Array(pairs.length).fill(UNKNOWN);
  const faulty = applyFaults(harness, list, faults);
  if (!faulty.ok) return new Float64Array(pairs.length).fill(UNKNOWN);
  const operatingPoint = settle(faulty.value, undefined, solutions?.usual);
  if (operatingPoint.kind !== "settled") return readTurns(operatingPoint.turns ?? [], places);
  const readings = readSettled(operatingPoint, places);
  // What hides in sleeping units is not known, so a reading that less of it would change cannot be foretold.
  const hasOthers = pairs.some(({ kind }) => kind !== "resistance");
  const other =
    hasOthers &&
    operatingPoint.modes.units.size > 0 &&
    withHiddenTimes(operatingPoint, LESS_HIDDEN, solutions?.lessHidden);
  if (!other) return readings;
  const besides = readSettled(other, places);
  return Float64Array.from(pairs, ({ kind }, at) => {
    const point = readings[at] ?? UNKNOWN;
    return isAlike(kind, point, besides[at] ?? UNKNOWN) ? point : UNKNOWN;
  });
}

/** Readings of a machine that keeps changing: where they are the same in every turn they keep still all the same. */
function readTurns(turns: readonly OperatingPoint[], places: readonly PlacedPair[]): Float64Array {
  const [first = new Float64Array(places.length).fill(UNKNOWN), ...others] = turns.map((turn) =>
    readSettled(turn, places),
  );
  return first.map((point, at) => {
    const kind = places[at]?.pair.kind ?? "dc-voltage";
    return others.every((other) => isAlike(kind, point, other[at] ?? UNKNOWN)) ? point : UNSTEADY;
  });
}

/** Whether two readings are one to a person with a meter. Of ohms the open line says what hides. */
function isAlike(kind: StorePair["kind"], point: number, other: number): boolean {
  if (kind === "resistance" || Object.is(point, other)) return true;
  return Math.abs(point - other) < 2 * toleranceOf(point, UNIT_OF_METER[kind]);
}

/** How much less than usual may hide in electronics that sleep, as a share. Common practice, no source; nothing is foretold with it. */
const LESS_HIDDEN = 0.1;

function readSettled(operatingPoint: OperatingPoint, places: readonly PlacedPair[]): Float64Array {
  return Float64Array.from(places, ({ pair, red, black, element }) => {
    if (red < 0 || black < 0) return UNKNOWN;
    switch (pair.kind) {
      case "current":
        return readAmperes(operatingPoint, element);
      case "dc-voltage":
        return readVolts(operatingPoint, red, black);
      case "resistance":
        return readOhms(operatingPoint, red, black);
    }
  });
}

function readVolts({ solved }: OperatingPoint, red: number, black: number): number {
  if (solved.islands[red] !== solved.islands[black]) return FLOATING;
  return round(toScale((solved.volts[red] ?? 0) - (solved.volts[black] ?? 0), "V"));
}

/** Current in an element itself, not in what protects it; nothing through one that is open. */
function readAmperes(operatingPoint: OperatingPoint, at: number): number {
  return at < 0 ? UNKNOWN : round(toScale(drivenAmpere(operatingPoint, at), "A"));
}

/** More than this between a lead and ground, in volt, and the reading of an ohmmeter means nothing. */
const LIVE_VOLT = 1e-6;
const HIGHEST_OHM = HAND_METER.ohms.ranges.at(-1)?.[0] ?? Infinity;

function readOhms({ solved, list }: OperatingPoint, red: number, black: number): number {
  const { volts, islands } = solved;
  const isLive = [red, black].some(
    (node) =>
      islands[node] === islands[list.reference] &&
      Math.abs((volts[node] ?? 0) - (volts[list.reference] ?? 0)) > LIVE_VOLT,
  );
  if (isLive) return UNKNOWN;
  if (islands[red] !== islands[black]) return OVER_RANGE;
  const ohm = ohmBetween(solved, red, black);
  return ohm > HIGHEST_OHM ? OVER_RANGE : round(toScale(ohm, "Ω"));
}

/** Rounded, so that the answer does not hang on the order of the solver's sums. */
function round(point: number): number {
  return Math.round(point * 1e8) / 1e8;
}

/** The parts that touch each node; none for nodes whose own voltage matters. */
function endsOf(
  { parts, shape, coils, modules, reference }: PartList,
  measured: Iterable<number>,
): Map<number, number[]> {
  const ends = new Map<number, number[]>();
  parts.forEach(({ present, control }, at) => {
    // What is not there and follows nothing stays away.
    if (!present && control === undefined) return;
    for (const node of [shape.from[at] ?? -1, shape.to[at] ?? -1]) {
      addTo(ends, node, at);
    }
  });
  const watched = [
    ...measured,
    reference,
    ...coils.flatMap((coil) => [coil.from, coil.to]),
    ...modules.flatMap((need) => [need.positive, need.negative]),
  ];
  for (const node of watched) ends.delete(node);
  return ends;
}

function placePairs(list: PartList, pairs: readonly StorePair[]): readonly PlacedPair[] {
  const nodes = new Map(list.nodeKeys.map((key, number) => [key, number]));
  const elements = new Map(list.parts.map(({ key }, number) => [key, number]));
  return pairs.map((pair) => ({
    pair,
    red: nodes.get(pair.red) ?? -1,
    black: nodes.get(pair.black) ?? -1,
    element: pair.kind === "current" ? (elements.get(pair.of) ?? -1) : -1,
  }));
}

/**
 * Names fault sets by what they do to readings: sets of one name give the same readings at every measured point.
 *
 * An open, or an added resistance, does the same wherever it sits in a stretch of plain conductors in line with nothing measured or branching
 * off in between. Most joints and wires of a machine lie in such stretches, so far fewer solutions are needed than there are faults.
 *
 * @param list The healthy parts of a standing.
 * @param measured Nodes of the list that a meter touches.
 * @returns A function from a fault set to its name.
 */
export function sameReadings(list: PartList, measured: Iterable<number>): (faults: readonly Fault[]) => string {
  const stretches = stretchOfOwner(list, measured);
  return (faults) => {
    const [fault] = faults;
    if (faults.length !== 1 || (fault?.kind !== "open" && fault?.kind !== "high-resistance"))
      return JSON.stringify(faults);
    const stretch = stretches.get(fault.of);
    if (stretch === undefined) return JSON.stringify(faults);
    return fault.kind === "open" ? `open ${stretch}` : `resistance ${stretch} ${fault.ohm}`;
  };
}

/** The stretch that a thing lies in, by number, for things that are one plain conductor. */
function stretchOfOwner(list: PartList, measured: Iterable<number>): ReadonlyMap<string, number> {
  const { from, to } = list.shape;
  const ends = endsOf(list, measured);
  const plain = new Set([...list.parts.keys()].filter((at) => isPlain(list.parts[at])));
  const stretch = new Map<number, number>();
  for (const first of plain) {
    if (stretch.has(first)) continue;
    const waiting = [first];
    for (let at = waiting.pop(); at !== undefined; at = waiting.pop()) {
      stretch.set(at, first);
      for (const node of [from[at] ?? -1, to[at] ?? -1]) {
        const touching = ends.get(node) ?? [];
        if (touching.length !== 2) continue;
        for (const next of touching) if (plain.has(next) && !stretch.has(next)) waiting.push(next);
      }
    }
  }
  const counts = new Map<string, number>();
  for (const { owner } of list.parts) counts.set(owner, (counts.get(owner) ?? 0) + 1);
  return new Map(
    [...stretch].flatMap(([at, first]): (readonly [string, number])[] => {
      const owner = list.parts[at]?.owner ?? "";
      return counts.get(owner) === 1 ? [[owner, first]] : [];
    }),
  );
}

function isPlain(part: Part | undefined): boolean {
  return part?.present === true && part.control === undefined && part.module === undefined && part.volt === 0;
}
