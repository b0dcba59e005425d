/** A resistor between two points. */
export interface HeightLink {
  readonly a: number;
  readonly b: number;
  /** How many lines it is long, each of one equal resistance. */
  readonly length: number;
}

/**
 * Gives every point a height as a voltage: points that are given keep theirs, the others take the value at which no current is lost.
 *
 * @param count How many points there are, numbered from 0.
 * @param links The resistors between them.
 * @param fixed Heights that are given, by point.
 * @returns The height of each point; 0.5 where no given height is reached.
 *
 * Source: nodal analysis (Kirchhoff's current law) and Gaussian elimination.
 */
export function solveHeights(
  count: number,
  links: readonly HeightLink[],
  fixed: ReadonlyMap<number, number>,
): readonly number[] {
  const free = reached(count, links, fixed);
  const row = new Map(free.map((point, at) => [point, at]));
  const size = free.length;
  const matrix = free.map(() => new Float64Array(size + 1));
  const add = (at: number | undefined, other: number, conductance: number): void => {
    const line = at === undefined ? undefined : matrix[at];
    if (at === undefined || !line) return;
    line[at] = (line[at] ?? 0) + conductance;
    const column = row.get(other);
    if (column === undefined) line[size] = (line[size] ?? 0) + conductance * (fixed.get(other) ?? 0);
    else line[column] = (line[column] ?? 0) - conductance;
  };
  for (const { a, b, length } of links) {
    if (a === b) continue;
    add(row.get(a), b, 1 / length);
    add(row.get(b), a, 1 / length);
  }
  const solved = eliminate(matrix, size);
  return Array.from({ length: count }, (_, point) => fixed.get(point) ?? solved[row.get(point) ?? -1] ?? 0.5);
}

/** Points without a given height that are joined to one. */
function reached(count: number, links: readonly HeightLink[], fixed: ReadonlyMap<number, number>): readonly number[] {
  const near = Array.from({ length: count }, (): number[] => []);
  for (const { a, b } of links) {
    near[a]?.push(b);
    near[b]?.push(a);
  }
  const seen = new Set(fixed.keys());
  for (const point of seen) for (const next of near[point] ?? []) seen.add(next);
  return [...seen].filter((point) => !fixed.has(point)).sort((a, b) => a - b);
}

/** Solves a system whose matrix is diagonally dominant, so that no pivoting is needed. The last column is the right side. */
function eliminate(matrix: readonly Float64Array[], size: number): Float64Array {
  const at = (line: number, column: number): number => matrix[line]?.[column] ?? 0;
  for (let pivot = 0; pivot < size; pivot++) {
    for (let line = pivot + 1; line < size; line++) {
      const factor = at(line, pivot) / at(pivot, pivot);
      const target = matrix[line];
      if (factor === 0 || !target) continue;
      for (let column = pivot; column <= size; column++) target[column] = at(line, column) - factor * at(pivot, column);
    }
  }
  const solved = new Float64Array(size);
  for (let line = size - 1; line >= 0; line--) {
    let rest = at(line, size);
    for (let column = line + 1; column < size; column++) rest -= at(line, column) * (solved[column] ?? 0);
    solved[line] = rest / at(line, line);
  }
  return solved;
}
