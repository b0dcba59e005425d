import { seededRandom } from "../../base/index.ts";

/** A bar or a box, as the search for slots sees it. */
export interface SlotWide {
  readonly isBox: boolean;
  /** Its upper and lower edge at the moment. */
  readonly y0: number;
  readonly y1: number;
  readonly above: readonly number[];
  readonly below: readonly number[];
}

/** A column, as the search for slots sees it. */
export interface SlotColumn {
  readonly upper: number;
  readonly lower: number;
  readonly strong: boolean;
}

/** What the search for slots is given. */
export interface SlotQuestion {
  readonly wides: readonly SlotWide[];
  readonly columns: readonly SlotColumn[];
  /** Pairs of columns that a dashed line joins. */
  readonly links: readonly (readonly [number, number])[];
  /** Pairs of columns that must not share a slot, each as `a,b` with the lower number first. */
  readonly apart: ReadonlySet<string>;
  /** A result to start from. */
  readonly start?: readonly number[];
}

/** What each thing costs, in slots. Judgement, tuned by eye. */
const COST = {
  barSpan: 2.2,
  boxSpan: 3,
  bent: 5,
  strongMeetsWeak: 0.3,
  crossing: 25,
  impossible: 1000,
  stretched: 30,
  columnInBox: 400,
  barsMeet: 12,
  boxesMeet: 500,
  link: 4,
  slot: 5,
  strongRight: 0.35,
} as const;

/**
 * Finds the slot of each column: columns of one slot stand on one vertical line. A local search: the best move is taken until none helps.
 *
 * @returns The slot of each column, numbered from 0 from left to right without gaps. The same question has the same answer.
 */
export function searchSlots(question: SlotQuestion): readonly number[] {
  const { columns } = question;
  const rate = makeCost(question);
  const random = seededRandom(columns.length);
  const order = columns.map((_, at) => at);
  const shuffles = question.start || columns.length < 3 ? 0 : columns.length <= 10 ? 3 : 1;
  const starts = [question.start ?? order, ...Array.from({ length: shuffles }, () => random.shuffle(order))];
  let best: { slots: readonly number[]; cost: number } | undefined;
  for (const start of starts) {
    const found = improve(compact(start), rate);
    if (!best || found.cost < best.cost - 1e-9) best = found;
  }
  return best?.slots ?? [];
}

type Rate = (slots: readonly number[]) => number;

/** Numbers the slots from 0 without gaps. */
function compact(slots: readonly number[]): number[] {
  const used = [...new Set(slots)].sort((a, b) => a - b);
  const place = new Map(used.map((slot, at) => [slot, at]));
  return slots.map((slot) => place.get(slot) ?? 0);
}

function improve(start: number[], rate: Rate): { slots: readonly number[]; cost: number } {
  let slots = start;
  let cost = rate(slots);
  for (let sweep = 0; sweep < 200; sweep++) {
    let next: { slots: number[]; cost: number } | undefined;
    for (const tried of moves(slots)) {
      const price = rate(tried);
      if (price < (next?.cost ?? cost) - 1e-9) next = { slots: compact(tried), cost: price };
    }
    if (!next) break;
    ({ slots, cost } = next);
  }
  return { slots, cost };
}

/** Slots are doubled, so that a column can be put between two. */
function* moves(slots: readonly number[]): Iterable<number[]> {
  const count = Math.max(...slots, -1) + 1;
  for (let column = 0; column < slots.length; column++) {
    for (let half = -1; half <= 2 * count - 1; half++) {
      if (half === 2 * (slots[column] ?? 0)) continue;
      const tried = slots.map((slot) => 2 * slot);
      tried[column] = half;
      yield tried;
    }
    for (let other = column + 1; other < slots.length; other++) {
      if (slots[column] === slots[other]) continue;
      const tried = slots.map((slot) => 2 * slot);
      tried[column] = 2 * (slots[other] ?? 0);
      tried[other] = 2 * (slots[column] ?? 0);
      yield tried;
    }
  }
  for (let slot = 0; slot < count; slot++) {
    for (let to = -1; to <= 2 * count - 1; to += 2) {
      if (to === 2 * slot - 1 || to === 2 * slot + 1) continue;
      yield slots.map((each) => (each === slot ? to : 2 * each));
    }
  }
}

/** Facts that do not change during a search, and the cost of a try. */
function makeCost(question: SlotQuestion): Rate {
  const { wides, columns, links } = question;
  const pairs = pairCosts(question);
  const inside = wides.flatMap((wide, at) => passing(question, wide, at));
  const near = nearWides(wides);
  const joints = wides.flatMap((wide, at) =>
    !wide.isBox && wide.above.length > 0 && wide.below.length > 0 ? [at] : [],
  );
  const low = new Float64Array(wides.length);
  const high = new Float64Array(wides.length);
  const rank = new Int32Array(2 * columns.length + 4);
  return (tried) => {
    rank.fill(0);
    for (const slot of tried) rank[slot + 1] = 1;
    let count = 0;
    for (let slot = 0; slot < rank.length; slot++) if (rank[slot] === 1) rank[slot] = ++count;
    const at = (column: number): number => rank[(tried[column] ?? 0) + 1] ?? 0;
    let cost = COST.slot * count;
    wides.forEach((wide, number) => {
      let [least, most] = [Infinity, -Infinity];
      for (const list of [wide.above, wide.below]) {
        for (const column of list) {
          const slot = at(column);
          if (slot < least) least = slot;
          if (slot > most) most = slot;
        }
      }
      low[number] = least;
      high[number] = most;
      cost += (wide.isBox ? COST.boxSpan : COST.barSpan) * Math.max(0, most - least);
    });
    columns.forEach(({ strong }, column) => {
      if (strong) cost += COST.strongRight * at(column);
    });
    for (const joint of joints) cost += bendCost(wides[joint], columns, at);
    for (const { a, b, price } of pairs) if (at(a) === at(b)) cost += price;
    for (const { wide, column, price } of inside) {
      const slot = at(column);
      if (slot >= (low[wide] ?? 0) && slot <= (high[wide] ?? 0)) {
        const isRim = slot === low[wide] || slot === high[wide];
        cost += isRim && !wides[wide]?.isBox ? COST.stretched : price;
      }
    }
    for (const { a, b, price } of near)
      if ((low[a] ?? 0) <= (high[b] ?? 0) && (low[b] ?? 0) <= (high[a] ?? 0)) cost += price;
    for (const [a, b] of links) cost += COST.link * Math.abs(at(a) - at(b));
    return cost;
  };
}

/** A bar should have one column from above and one from below on one line, best two of equal strength. */
function bendCost(wide: SlotWide | undefined, columns: readonly SlotColumn[], at: (column: number) => number): number {
  let best: number = COST.bent;
  for (const above of wide?.above ?? []) {
    for (const below of wide?.below ?? []) {
      if (at(above) !== at(below)) continue;
      best = Math.min(best, columns[above]?.strong === columns[below]?.strong ? 0 : COST.strongMeetsWeak);
    }
  }
  return best;
}

/** What it costs two columns to share a slot; only pairs for which it costs anything. */
function pairCosts({ wides, columns, apart }: SlotQuestion): readonly { a: number; b: number; price: number }[] {
  const reaches = reachOf(wides.length, columns);
  const found: { a: number; b: number; price: number }[] = [];
  columns.forEach((first, a) => {
    columns.slice(a + 1).forEach((second, more) => {
      const b = a + 1 + more;
      const price = apart.has(`${a},${b}`) ? COST.impossible : sharePrice(first, second, { wides, reaches });
      if (price > 0) found.push({ a, b, price });
    });
  });
  return found;
}

interface Reaching {
  readonly wides: readonly SlotWide[];
  readonly reaches: (a: number, b: number) => boolean;
}

function sharePrice(a: SlotColumn, b: SlotColumn, { wides, reaches }: Reaching): number {
  const canPrecede = (lower: number, upper: number): boolean => lower === upper || !reaches(upper, lower);
  const first = canPrecede(a.lower, b.upper);
  const second = canPrecede(b.lower, a.upper);
  if (!first && !second) return COST.impossible;
  const yOf = (wide: number): number => ((wides[wide]?.y0 ?? 0) + (wides[wide]?.y1 ?? 0)) / 2;
  const isClear = (above: SlotColumn, below: SlotColumn): boolean =>
    above.lower === below.upper || yOf(above.lower) <= yOf(below.upper);
  return (first && isClear(a, b)) || (second && isClear(b, a)) ? 0 : COST.stretched;
}

/** Whether one wide thing is below another, by the columns. */
function reachOf(count: number, columns: readonly SlotColumn[]): (a: number, b: number) => boolean {
  const below = Array.from({ length: count }, (_, at) => new Set([at]));
  for (const set of below)
    for (const at of set) for (const column of columns) if (column.upper === at) set.add(column.lower);
  return (a, b) => below[a]?.has(b) ?? false;
}

/** Columns that pass a wide thing at its height, with what it costs where they cross its span. */
function passing(
  { wides, columns }: SlotQuestion,
  wide: SlotWide,
  at: number,
): readonly { wide: number; column: number; price: number }[] {
  const own = new Set([...wide.above, ...wide.below]);
  const reaches = reachOf(wides.length, columns);
  return columns.flatMap((column, number) => {
    if (own.has(number)) return [];
    const isForced = reaches(column.upper, at) && reaches(at, column.lower);
    const top = wides[column.upper]?.y1 ?? 0;
    const end = wides[column.lower]?.y0 ?? 0;
    const isAtHeight = wide.y1 > top && wide.y0 < end;
    if (!isForced && !isAtHeight) return [];
    const price = wide.isBox ? (isForced ? COST.columnInBox : COST.columnInBox / 4) : COST.crossing;
    return [{ wide: at, column: number, price }];
  });
}

/** Pairs of wide things at one height, with what it costs where their spans meet. */
function nearWides(wides: readonly SlotWide[]): readonly { a: number; b: number; price: number }[] {
  return wides.flatMap((first, a) =>
    wides.slice(a + 1).flatMap((second, more) => {
      const isNear = first.y0 - 12 < second.y1 && second.y0 - 12 < first.y1;
      if (!isNear) return [];
      return [{ a, b: a + 1 + more, price: first.isBox && second.isBox ? COST.boxesMeet : COST.barsMeet }];
    }),
  );
}
