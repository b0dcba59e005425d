import { BOX_DAYS, dueCards, repeatAfter, type RepetitionCard } from "ohmward/training";
import { describe, expect, test } from "vitest";

const none: RepetitionCard = { drill: "route W1", build: "base", harnessCheck: "a", box: 0, dueDay: 0 };

describe("repetition in boxes", () => {
  // Source: S. Leitner, So lernt man lernen (1972), from memory: right moves up a box, wrong back to the first.
  test("moves a card up box by box and out of the last", () => {
    let card: RepetitionCard | undefined = repeatAfter(none, false, 0);
    const days: number[] = [];
    let today = 0;
    while (card && days.length < 9) {
      days.push(card.dueDay - today);
      today = card.dueDay;
      card = repeatAfter(card, true, today);
    }
    expect(days).toEqual([...BOX_DAYS]);
  });

  test("throws a card back to the first box at every mistake", () => {
    const card = repeatAfter({ ...none, box: 4, dueDay: 20 }, false, 20);
    expect(card).toEqual({ ...none, box: 1, dueDay: 21 });
  });

  test("makes no card of what was right at the first try", () => {
    expect(repeatAfter(none, true, 3)).toBeUndefined();
  });

  test("gives what is due, low boxes first, and leaves out cards of other data", () => {
    const cards = [
      { ...none, drill: "a", box: 2, dueDay: 3 },
      { ...none, drill: "b", box: 1, dueDay: 5 },
      { ...none, drill: "c", box: 1, dueDay: 9 },
      { ...none, drill: "d", box: 1, dueDay: 1, harnessCheck: "other" },
    ];
    expect(dueCards(cards, 6, "a").map(({ drill }) => drill)).toEqual(["b", "a"]);
  });
});
