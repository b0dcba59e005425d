import type { Rect } from "./shapes.ts";
import { SIZE } from "./sketch.ts";
import type { RowSystem } from "./row-system.ts";

/** Something with a height of its own. Things that a dashed line keeps level have one height together. */
export interface RowItem {
  /** Its height in the system of rules. */
  readonly row: number;
  /** Ground that nothing else may cover, around its own height. */
  readonly blocks: readonly Rect[];
  /** Lines that lie across, around its own height: they may cross wires, and nothing else. */
  readonly bars: readonly Rect[];
}

/** A column as a strip between two rows. */
export interface RowStrip {
  readonly x: number;
  readonly upper: number;
  readonly lower: number;
  /** Items that stand in it or at its ends. */
  readonly own: ReadonlySet<RowItem>;
}

/** A place where no rule helps. */
export type RowFault =
  | { readonly kind: "item-in-strip"; readonly item: number; readonly strip: number }
  | { readonly kind: "strips-meet"; readonly a: number; readonly b: number };

/** What is to be settled. */
export interface RowQuestion {
  readonly system: RowSystem;
  readonly items: readonly RowItem[];
  readonly strips: readonly RowStrip[];
  /** Gives every row its height under the rules so far. */
  readonly arrange: () => readonly number[];
}

/** Heights at which nothing meets. */
export interface SettledRows {
  readonly heights: readonly number[];
  /** What could not be kept apart; nothing of it where all is well. */
  readonly faults: readonly RowFault[];
}

/** How far two bars stay apart at least, and two columns that follow on one line. */
const BARS_APART = 10;
const STRIPS_APART = 24;

/**
 * Settles heights: arranges the rows, looks for things that meet, adds a rule for each, and arranges again until nothing meets.
 */
export function settleRows(question: RowQuestion): SettledRows {
  const pairs = nearPairs(question.items);
  const crossings = nearStrips(question);
  for (;;) {
    const heights = question.arrange();
    const faults: RowFault[] = [];
    let added = 0;
    for (const [a, b] of pairs) if (part(question, heights, [a, b])) added++;
    for (const { item, strip } of crossings) {
      const done = clear(question, heights, { item, strip });
      if (done === "added") added++;
      if (done === "stuck") faults.push({ kind: "item-in-strip", item, strip });
    }
    added += partStrips(question, heights, faults);
    if (added === 0 || faults.length > 0) return { heights, faults };
  }
}

/** Pairs of items that share ground from left to right. */
function nearPairs(items: readonly RowItem[]): readonly (readonly [RowItem, RowItem])[] {
  return items.flatMap((a, at) =>
    items.slice(at + 1).flatMap((b) => {
      if (a.row === b.row) return [];
      return distance(a, b) > -Infinity || distance(b, a) > -Infinity ? [[a, b] as const] : [];
    }),
  );
}

/**
 * How far one item has to be below another so that nothing of them meets.
 *
 * @returns The distance of their heights; minus infinity where they can never meet.
 */
export function distance(above: RowItem, below: RowItem): number {
  let most = -Infinity;
  const meet = (a: Rect, b: Rect, gap: number): void => {
    if (a.x0 < b.x1 + SIZE.gap && b.x0 < a.x1 + SIZE.gap) most = Math.max(most, a.y1 - b.y0 + gap);
  };
  for (const a of above.blocks) {
    for (const b of below.blocks) meet(a, b, SIZE.gap);
    for (const b of below.bars) meet(a, b, SIZE.gap);
  }
  for (const a of above.bars) {
    for (const b of below.blocks) meet(a, b, SIZE.gap);
    for (const b of below.bars) meet(a, b, BARS_APART);
  }
  return most;
}

/** Puts one of two items below the other if they meet; whether a rule was added. */
function part({ system }: RowQuestion, heights: readonly number[], [a, b]: readonly [RowItem, RowItem]): boolean {
  const [ya, yb] = [heights[a.row] ?? 0, heights[b.row] ?? 0];
  const [down, up] = [distance(a, b), distance(b, a)];
  if (yb - ya >= down - 1e-6 || ya - yb >= up - 1e-6) return false;
  const isFirstAbove =
    system.reaches(a.row, b.row) || (!system.reaches(b.row, a.row) && ya + down - yb <= yb + up - ya);
  if (isFirstAbove) system.add(a.row, b.row, down);
  else system.add(b.row, a.row, up);
  return true;
}

interface Crossing {
  readonly item: number;
  readonly strip: number;
}

/** Items that stand on the line of a column that is not theirs. */
function nearStrips({ items, strips }: RowQuestion): readonly Crossing[] {
  return strips.flatMap((strip, at) =>
    items.flatMap((item, number) => {
      const isOver = item.blocks.some(({ x0, x1 }) => x0 < strip.x + 6 && x1 > strip.x - 6);
      return isOver && !strip.own.has(item) ? [{ item: number, strip: at }] : [];
    }),
  );
}

/** Puts an item above or below a column that runs through it. */
function clear(
  { system, items, strips }: RowQuestion,
  heights: readonly number[],
  at: Crossing,
): "clear" | "added" | "stuck" {
  const item = items[at.item];
  const strip = strips[at.strip];
  if (!item || !strip) return "clear";
  const over = item.blocks.filter(({ x0, x1 }) => x0 < strip.x + 6 && x1 > strip.x - 6);
  const [y0, y1] = [Math.min(...over.map((each) => each.y0)), Math.max(...over.map((each) => each.y1))];
  const y = heights[item.row] ?? 0;
  const [upper, lower] = [heights[strip.upper] ?? 0, heights[strip.lower] ?? 0];
  if (y + y1 + SIZE.gap <= upper + 1e-6 || y + y0 - SIZE.gap >= lower - 1e-6) return "clear";
  const canAbove = !system.reaches(strip.upper, item.row);
  const canBelow = !system.reaches(item.row, strip.lower);
  if (!canAbove && !canBelow) return "stuck";
  const isAbove = canAbove && (!canBelow || y + (y0 + y1) / 2 < (upper + lower) / 2);
  if (isAbove) system.add(item.row, strip.upper, y1 + SIZE.gap);
  else system.add(strip.lower, item.row, SIZE.gap - y0);
  return "added";
}

/** Keeps columns on one line one under the other; how many rules were added. */
function partStrips({ system, strips }: RowQuestion, heights: readonly number[], faults: RowFault[]): number {
  let added = 0;
  strips.forEach((first, a) => {
    strips.slice(a + 1).forEach((second, more) => {
      if (first.x !== second.x) return;
      const yOf = (row: number): number => heights[row] ?? 0;
      const isClear = (above: RowStrip, below: RowStrip): boolean =>
        above.lower === below.upper || yOf(below.upper) - yOf(above.lower) >= STRIPS_APART - 1e-6;
      if (isClear(first, second) || isClear(second, first)) return;
      const order = [
        [first, second],
        [second, first],
      ] as const;
      const sorted = yOf(first.upper) <= yOf(second.upper) ? order : order.toReversed();
      const found = sorted.find(([above, below]) => !system.reaches(below.upper, above.lower));
      if (!found) {
        faults.push({ kind: "strips-meet", a, b: a + 1 + more });
        return;
      }
      system.add(found[0].lower, found[1].upper, STRIPS_APART);
      added++;
    });
  });
  return added;
}
