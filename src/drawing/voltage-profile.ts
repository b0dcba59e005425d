/** One thing on a way, with the volts where the way comes in and goes out; null where nothing ties it to the supply. */
export interface ProfileItem {
  readonly id: string;
  readonly inVolt: number | null;
  readonly outVolt: number | null;
}

/** A mark of the axis. */
interface ProfileTick {
  readonly volt: number;
  readonly y: number;
}

/** A thing that takes a share of the voltage worth a label. */
interface ProfileStep {
  readonly id: string;
  readonly dropVolt: number;
  /** Middle of its column. */
  readonly x: number;
  /** Where its line begins and ends. */
  readonly inY: number;
  readonly outY: number;
  /** Large enough that its figure has room in the picture. */
  readonly isLarge: boolean;
}

/** Where two lines are furthest apart: the right edge of a column, and the height of each line there. */
interface ProfileGap {
  readonly x: number;
  readonly y: readonly [number, number];
}

/** One line of the picture; broken where things float. */
interface ProfileLine {
  readonly pieces: readonly (readonly { readonly x: number; readonly y: number }[])[];
  readonly steps: readonly ProfileStep[];
}

/** The voltage along a way as a stair, in the units of its size. */
export interface VoltageProfile {
  readonly ticks: readonly ProfileTick[];
  readonly lines: readonly ProfileLine[];
  /** Left edge and width of the column of each thing, in the order of the way. */
  readonly columns: readonly { readonly id: string; readonly x: number; readonly width: number }[];
  /** Which columns have no voltage of their own, a list a line. */
  readonly floating: readonly (readonly number[])[];
  /** Where the first two lines are furthest apart; undefined where there are no two or they are the same. */
  readonly gap: ProfileGap | undefined;
}

/** A drop below this share of the whole height is not large. */
const LARGE_SHARE = 0.01;
/** Smallest drop that is a step, in volt: a good joint under load loses less. Common practice, no source. */
const STEP_VOLT = 0.05;
const MOST_STEPS = 8;
/** Distances between marks of the axis that read well, in volt. */
const TICK_VOLTS = [0.001, 0.002, 0.005, 0.01, 0.02, 0.05, 0.1, 0.2, 0.5, 1, 2, 5, 10, 20, 50, 100] as const;
const MOST_TICKS = 9;

/**
 * Draws the voltage along a way as a stair: each thing has a column, and the line falls in the columns where voltage is lost.
 *
 * @param ways The same way once for each line (such as healthy and faulty), each with the same things in the same order.
 * @param size Width and height of the picture.
 * @returns Ticks from the highest to the lowest voltage met, 0 V always among them; lines, labelled steps, columns.
 * @example
 * ```ts
 * import { voltageProfile } from "ohmward/drawing";
 * const way = [{ id: "W1", inVolt: 12, outVolt: 11 }, { id: "E1", inVolt: 11, outVolt: 0 }];
 * const stair = voltageProfile([way], { width: 200, height: 120 });
 * expect(stair.lines[0]?.steps.map(({ dropVolt }) => dropVolt)).toEqual([1, 11]);
 * ```
 */
export function voltageProfile(
  ways: readonly (readonly ProfileItem[])[],
  { width, height }: { readonly width: number; readonly height: number },
): VoltageProfile {
  const volts = ways.flatMap((way) => way.flatMap(({ inVolt, outVolt }) => [inVolt ?? 0, outVolt ?? 0]));
  const ticks = tickVolts(Math.min(0, ...volts), Math.max(0, ...volts));
  const [bottom, top] = [ticks[0] ?? 0, ticks.at(-1) ?? 1];
  const yOf = (volt: number): number => ((top - volt) / (top - bottom)) * height;
  const count = ways[0]?.length ?? 0;
  const column = count === 0 ? 0 : width / count;
  return {
    ticks: ticks.map((volt) => ({ volt, y: yOf(volt) })),
    lines: ways.map((way) => ({
      pieces: piecesOf(way, column, yOf),
      steps: stepsOf(way, { column, yOf, largeVolt: (top - bottom) * LARGE_SHARE }),
    })),
    columns: (ways[0] ?? []).map(({ id }, at) => ({ id, x: at * column, width: column })),
    floating: ways.map((way) =>
      way.flatMap(({ inVolt, outVolt }, at) => (inVolt === null && outVolt === null ? [at] : [])),
    ),
    gap: gapOf(ways, column, yOf),
  };
}

/** Round voltages from below the lowest to above the highest. */
function tickVolts(lowest: number, highest: number): readonly number[] {
  const span = Math.max(highest - lowest, 0.001);
  const step = TICK_VOLTS.find((each) => span / each <= MOST_TICKS - 1) ?? span;
  const first = Math.floor(lowest / step + 1e-9);
  const last = Math.max(first + 1, Math.ceil(highest / step - 1e-9));
  return Array.from({ length: last - first + 1 }, (_, at) => Number(((first + at) * step).toFixed(6)));
}

function gapOf(
  [one = [], other = []]: readonly (readonly ProfileItem[])[],
  column: number,
  yOf: (volt: number) => number,
): ProfileGap | undefined {
  let [gap, widest]: [ProfileGap | undefined, number] = [undefined, 0];
  for (const [at, { outVolt }] of one.entries()) {
    const second = other[at]?.outVolt ?? null;
    if (outVolt === null || second === null || Math.abs(outVolt - second) <= widest) continue;
    widest = Math.abs(outVolt - second);
    gap = { x: (at + 1) * column, y: [yOf(outVolt), yOf(second)] };
  }
  return gap;
}

function piecesOf(
  way: readonly ProfileItem[],
  column: number,
  yOf: (volt: number) => number,
): readonly (readonly { readonly x: number; readonly y: number }[])[] {
  const pieces: { x: number; y: number }[][] = [];
  let piece: { x: number; y: number }[] = [];
  const add = (x: number, volt: number | null): void => {
    if (volt !== null) piece.push({ x, y: yOf(volt) });
    else if (piece.length > 0) {
      pieces.push(piece);
      piece = [];
    }
  };
  for (const [at, { inVolt, outVolt }] of way.entries()) {
    add(at * column, inVolt);
    // The fall takes the middle third of the column, so that a stair is seen and no ramp.
    add((at + 1 / 3) * column, inVolt);
    add((at + 2 / 3) * column, outVolt);
    add((at + 1) * column, outVolt);
  }
  return piece.length > 0 ? [...pieces, piece] : pieces;
}

function stepsOf(
  way: readonly ProfileItem[],
  how: { readonly column: number; readonly yOf: (volt: number) => number; readonly largeVolt: number },
): readonly ProfileStep[] {
  const steps = way.flatMap(({ id, inVolt, outVolt }, at): ProfileStep[] => {
    if (inVolt === null || outVolt === null) return [];
    const dropVolt = inVolt - outVolt;
    if (Math.abs(dropVolt) < STEP_VOLT) return [];
    const isLarge = Math.abs(dropVolt) >= how.largeVolt;
    return [{ id, dropVolt, x: (at + 0.5) * how.column, inY: how.yOf(inVolt), outY: how.yOf(outVolt), isLarge }];
  });
  const largest = steps.toSorted((a, b) => Math.abs(b.dropVolt) - Math.abs(a.dropVolt)).slice(0, MOST_STEPS);
  return steps.filter((step) => largest.includes(step));
}
