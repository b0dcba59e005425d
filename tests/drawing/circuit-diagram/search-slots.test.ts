import { expect, test } from "vitest";
import { searchSlots, type SlotQuestion } from "../../../src/drawing/circuit-diagram/search-slots.ts";

/** A bar with one column from above and two below it. */
const fork: SlotQuestion = {
  wides: [
    { isBox: false, y0: 0, y1: 0, above: [], below: [0] },
    { isBox: false, y0: 100, y1: 100, above: [0], below: [1, 2] },
    { isBox: false, y0: 200, y1: 200, above: [1], below: [] },
    { isBox: false, y0: 200, y1: 200, above: [2], below: [] },
  ],
  columns: [
    { upper: 0, lower: 1, strong: true },
    { upper: 1, lower: 2, strong: true },
    { upper: 1, lower: 3, strong: false },
  ],
  links: [],
  apart: new Set(),
};

test("searchSlots() sets columns that follow one another on one line, the strong ones at the left", () => {
  expect(searchSlots(fork)).toEqual([0, 0, 1]);
  expect(searchSlots(fork)).toEqual(searchSlots(fork));
});

test("searchSlots() keeps columns apart that must not share a line", () => {
  const [first, second] = searchSlots({ ...fork, apart: new Set(["0,1"]) });
  expect(first).not.toBe(second);
});
