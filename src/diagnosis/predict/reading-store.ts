import { readingTable, TABLE_KINDS, type Fault, type TablePair } from "../../electrics/index.ts";
import type { Harness } from "../../model/index.ts";
import { FLOATING, OVER_RANGE, toScale, UNSTEADY } from "../belief/meter-scale.ts";
import { UNKNOWN } from "../belief/reading-likelihood.ts";

/** Where the machine stands while readings are taken. */
export interface Standing {
  readonly state: string;
  /** Connectors that are unplugged, in natural order. */
  readonly unplugged: readonly string[];
}

/** Readings of one standing, worked out as they are asked for. */
export interface ReadingStore {
  /**
   * Readings of one pair under some fault sets, on the axis of the meter.
   *
   * @param pair Position of the pair in the list of the standing.
   * @param sets Positions of fault sets; what is missing is worked out for all pairs of the standing at once.
   */
  readonly row: (pair: number, sets: readonly number[]) => Float64Array;
}

/** What a store is made for. */
export interface StoreQuestion {
  readonly standing: Standing;
  readonly pairs: readonly TablePair[];
  /** Fault sets by number; the first is the healthy machine. The list may grow at its end. */
  readonly faultSets: readonly (readonly Fault[])[];
}

/** Everything outside the circuit is reduced first: the tables are filled many times as fast. */
const REDUCE_ABOVE = 150;

/**
 * Makes a store of readings.
 *
 * What is worked out stays inside the store, so that asking again costs nothing; the answers are the same whatever was asked before.
 *
 * @param harness The harness.
 * @param question Standing, pairs, fault sets.
 */
export function makeReadingStore(harness: Harness, question: StoreQuestion): ReadingStore {
  const { standing, pairs, faultSets } = question;
  const known = new Map<number, Float64Array>();
  const fill = (sets: readonly number[]): void => {
    const missing = sets.filter((set) => !known.has(set));
    if (missing.length === 0) return;
    const table = readingTable(harness, {
      situation: { unplugged: standing.unplugged },
      states: [standing.state],
      faultSets: missing.map((set) => faultSets[set] ?? []),
      pairs,
      reduceAbove: REDUCE_ABOVE,
    });
    missing.forEach((set, row) => {
      const start = row * pairs.length;
      known.set(
        set,
        Float64Array.from(pairs, (pair, at) =>
          onScale(pair, table.kinds[start + at] ?? 0, table.values[start + at] ?? 0),
        ),
      );
    });
  };
  return {
    row: (pair, sets) => {
      fill(sets);
      return Float64Array.from(sets, (set) => known.get(set)?.[pair] ?? UNKNOWN);
    },
  };
}

function onScale({ kind }: TablePair, cellKind: number, value: number): number {
  const cell = TABLE_KINDS[cellKind];
  // Rounded, so that the answer is the same whatever else was worked out with it.
  if (cell === "value") return Math.round(toScale(value, kind === "volts" ? "V" : "Ω") * 1e8) / 1e8;
  if (cell === "floating") return FLOATING;
  if (cell === "over-range") return OVER_RANGE;
  return cell === "no-steady-state" ? UNSTEADY : UNKNOWN;
}
