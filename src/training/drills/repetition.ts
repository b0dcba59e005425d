import { naturalOrder } from "../../base/index.ts";

/** One drill that is to come again. */
export interface RepetitionCard {
  /** Id of the drill. */
  readonly drill: string;
  readonly build: string;
  /** Check of the harness data it was made from; a card of other data is out of date. */
  readonly harnessCheck: string;
  /** Box 1 to 5; the higher, the rarer. */
  readonly box: number;
  /** Day on which it is due, counted in whole days from any fixed day. */
  readonly dueDay: number;
}

/** Days until a card of box 1, 2, 3... comes again. */
export const BOX_DAYS = [1, 2, 4, 8, 16] as const;

/**
 * Says when a drill comes again after it was answered: a right answer moves its card one box up, a wrong one back to the first box. A
 * drill that was right at the first try needs no card.
 *
 * @param card The card, its box 0 where the drill had none.
 * @param isRight How it was answered.
 * @param day Today, in whole days.
 * @returns The card; undefined once it leaves the last box, or if it was right and had no card.
 *
 * Source: the boxes of S. Leitner, So lernt man lernen (1972), from memory; the days doubling from box to box are common practice.
 * @example
 * ```ts
 * import { repeatAfter } from "ohmward/training";
 * const wrong = repeatAfter({ drill: "route W1", build: "base", harnessCheck: "", box: 0, dueDay: 0 }, false, 10);
 * expect([wrong?.box, wrong?.dueDay]).toEqual([1, 11]);
 * const right = wrong && repeatAfter(wrong, true, 11);
 * expect([right?.box, right?.dueDay]).toEqual([2, 13]);
 * ```
 */
export function repeatAfter(card: RepetitionCard, isRight: boolean, day: number): RepetitionCard | undefined {
  if (isRight && card.box === 0) return undefined;
  const box = isRight ? card.box + 1 : 1;
  const days = BOX_DAYS[box - 1];
  return days === undefined ? undefined : { ...card, box, dueDay: day + days };
}

/**
 * The cards that are due, those of the lowest box first, then the longest overdue.
 *
 * @param day Today, in whole days.
 * @param harnessCheck Check of the harness data at hand; cards of other data are left out.
 */
export function dueCards(
  cards: readonly RepetitionCard[],
  day: number,
  harnessCheck: string,
): readonly RepetitionCard[] {
  return cards
    .filter((card) => card.dueDay <= day && card.harnessCheck === harnessCheck)
    .sort((a, b) => a.box - b.box || a.dueDay - b.dueDay || naturalOrder(a.drill, b.drill));
}
