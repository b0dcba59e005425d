/** A repair that may mend the fault. */
interface RepairChoice {
  /** Weight of the causes that it mends. */
  readonly weight: number;
  /** What it takes, in minutes, the proof that follows it included. */
  readonly minutes: number;
}

/** Repairs in the order to try them. */
interface RepairOrder {
  /** Positions in the given list. */
  readonly order: readonly number[];
  /** Expected minutes until the one that mends is done. */
  readonly minutes: number;
}

/**
 * The cheapest order in which to try repairs when exactly one of them will mend the fault and no check tells them apart: by weight
 * over minutes, largest first.
 *
 * @param repairs The repairs; at least one with a weight above 0 for the time to mean anything.
 *
 * Source: D. Heckerman, J. Breese and K. Rommelse, Decision-theoretic troubleshooting, Communications of the ACM 38 (1995), from memory;
 * the rule is checked against every order in the tests.
 * @example
 * ```ts
 * import { repairOrder } from "ohmward/diagnosis";
 * const repairs = [[0.4, 8], [0.3, 3], [0.2, 1], [0.1, 4]].map(([weight = 0, minutes = 0]) => ({ weight, minutes }));
 * expect(repairOrder(repairs).order).toEqual([2, 1, 0, 3]);
 * ```
 */
export function repairOrder(repairs: readonly RepairChoice[]): RepairOrder {
  const ratio = (position: number): number => {
    const { weight, minutes } = repairs[position] ?? { weight: 0, minutes: 1 };
    return minutes > 0 ? weight / minutes : Infinity;
  };
  const order = [...repairs.keys()].sort((a, b) => ratio(b) - ratio(a) || a - b);
  return { order, minutes: minutesOfOrder(repairs, order) };
}

/** Expected minutes of trying repairs in a given order until the one that mends is done. */
export function minutesOfOrder(repairs: readonly RepairChoice[], order: readonly number[]): number {
  const total = repairs.reduce((sum, { weight }) => sum + weight, 0);
  if (total <= 0) return 0;
  let left = total;
  let minutes = 0;
  for (const position of order) {
    const repair = repairs[position];
    if (!repair) continue;
    minutes += (left / total) * repair.minutes;
    left -= repair.weight;
  }
  return minutes;
}
