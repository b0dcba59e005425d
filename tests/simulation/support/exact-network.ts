import type { DcNetwork } from "./plain-network.ts";

/** A fraction of whole numbers, the bottom above 0, always in lowest terms. */
export interface Fraction {
  readonly top: bigint;
  readonly bottom: bigint;
}

function reduced(top: bigint, bottom: bigint): Fraction {
  let [a, b] = [top < 0n ? -top : top, bottom < 0n ? -bottom : bottom];
  while (b > 0n) [a, b] = [b, a % b];
  const divisor = (bottom < 0n ? -1n : 1n) * (a || 1n);
  return { top: top / divisor, bottom: bottom / divisor };
}

export const fraction = (top: bigint | number, bottom: bigint | number = 1): Fraction =>
  reduced(BigInt(top), BigInt(bottom));
const plus = (a: Fraction, b: Fraction): Fraction => reduced(a.top * b.bottom + b.top * a.bottom, a.bottom * b.bottom);
const minus = (a: Fraction, b: Fraction): Fraction => plus(a, { top: -b.top, bottom: b.bottom });
const times = (a: Fraction, b: Fraction): Fraction => reduced(a.top * b.top, a.bottom * b.bottom);
const over = (a: Fraction, b: Fraction): Fraction => reduced(a.top * b.bottom, a.bottom * b.top);

/** The double nearest to a fraction, to about 1e-17 of it. */
export function toNumber({ top, bottom }: Fraction): number {
  if (top === 0n) return 0;
  const size = (value: bigint): number => (value < 0n ? -value : value).toString(2).length;
  const shift = BigInt(Math.max(0, 70 + size(bottom) - size(top)));
  return Number((top << shift) / bottom) / 2 ** Number(shift);
}

/** A number that is a whole multiple of 1/scale, as a fraction. */
function exactly(value: number, scale: bigint): Fraction {
  return fraction(BigInt(Math.round(value * Number(scale))), scale);
}

/**
 * Node voltages of a network by the textbook: nodal equations, Gauss elimination, whole-number fractions, nothing rounded.
 * Resistances must be multiples of 0.1 mohm, voltages of 1 mV, every node tied to the reference.
 */
export function exactVolts(network: DcNetwork, reference: number): readonly Fraction[] {
  const { nodeCount, branches } = network;
  const rows = Array.from({ length: nodeCount }, () => Array.from({ length: nodeCount + 1 }, () => fraction(0)));
  const add = (row: number, column: number, value: Fraction): void => {
    const line = rows[row];
    if (line) line[column] = plus(line[column] ?? fraction(0), value);
  };
  for (const { from, to, ohm, volt = 0 } of branches) {
    if (ohm === Infinity) continue;
    const siemens = over(fraction(1), exactly(ohm, 10_000n));
    const drive = times(siemens, exactly(volt, 1000n));
    add(from, from, siemens);
    add(to, to, siemens);
    add(from, to, minus(fraction(0), siemens));
    add(to, from, minus(fraction(0), siemens));
    add(to, nodeCount, drive);
    add(from, nodeCount, minus(fraction(0), drive));
  }
  const line = Array.from({ length: nodeCount + 1 }, (_, at) => fraction(at === reference ? 1 : 0));
  rows[reference] = line;
  return gauss(rows);
}

function gauss(rows: Fraction[][]): readonly Fraction[] {
  const count = rows.length;
  for (let column = 0; column < count; column++) {
    const pivot = rows.findIndex((row, at) => at >= column && (row[column]?.top ?? 0n) !== 0n);
    const pivotRow = rows[pivot];
    const held = rows[column];
    if (!pivotRow || !held) throw new RangeError("The network falls apart: some node is not tied to the reference");
    rows[pivot] = held;
    rows[column] = pivotRow;
    for (let at = 0; at < count; at++) {
      const row = rows[at];
      const head = row?.[column];
      if (!row || !head || at === column || head.top === 0n) continue;
      const share = over(head, pivotRow[column] ?? fraction(1));
      for (let k = column; k <= count; k++)
        row[k] = minus(row[k] ?? fraction(0), times(share, pivotRow[k] ?? fraction(0)));
    }
  }
  return rows.map((row, at) => over(row[count] ?? fraction(0), row[at] ?? fraction(1)));
}
