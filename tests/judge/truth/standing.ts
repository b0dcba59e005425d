/** How a battery, an alternator or a regulator behaves at the moment. */
export type SourceWay = "gives" | "folds back" | "rests" | "charges" | "shut";

/** How a control unit is: starved is one that would wake but falls asleep again under its own load. */
export type UnitWay = "asleep" | "awake" | "starved";

/** How everything that can change stands. */
export interface Standing {
  /** Coils that have pulled in. */
  readonly pulledIn: ReadonlySet<string>;
  /** Control units by id. */
  readonly units: ReadonlyMap<string, UnitWay>;
  /** Control units whose ignition input and ground are right, whatever their feed is: they may pull their main relay. */
  readonly ready: ReadonlySet<string>;
  /** Sources by key. */
  readonly sources: ReadonlyMap<string, SourceWay>;
  /** Electronics outside of control units, and inputs that draw current, which have volts to work with. */
  readonly alive: ReadonlySet<string>;
  /** Fuses that have burnt through. */
  readonly blown: ReadonlySet<string>;
}

/** Everything at rest, before the key is turned. */
export const AT_REST: Standing = {
  pulledIn: new Set(),
  units: new Map(),
  ready: new Set(),
  sources: new Map(),
  alive: new Set(),
  blown: new Set(),
};

/** Whether two standings are the same. */
export function sameStanding(one: Standing, other: Standing): boolean {
  return describe(one) === describe(other);
}

/** A standing as text, to find it again. */
export function describe(standing: Standing): string {
  const { pulledIn, units, ready, sources, alive, blown } = standing;
  return JSON.stringify([[...pulledIn], [...units], [...ready], [...sources], [...alive], [...blown]]);
}
