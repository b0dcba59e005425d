/**
 * Counts the typing slips between two texts: one insertion, deletion, replacement or swap of two neighbours each counts 1.
 * No part of a text is edited twice (optimal string alignment), so "ca" to "abc" takes 3. Counts whole characters
 * (code points). Upper and lower case differ; fold them first if they should not.
 *
 * Source: V. I. Levenshtein, "Binary codes capable of correcting deletions, insertions, and reversals" (1966), for the
 * distance; R. A. Wagner and M. J. Fischer, "The string-to-string correction problem", JACM 21 (1974), for the table;
 * F. J. Damerau, "A technique for computer detection and correction of spelling errors", CACM 7 (1964), for the swap.
 *
 * @param first the text as typed
 * @param second the text it may have been meant to be
 * @param limit the largest count of interest; a smaller one is quicker. No limit when left out
 * @returns the number of slips, or `Infinity` when there are more than `limit`
 *
 * @example
 * ```ts
 * import { editDistance } from "ohmward/base";
 *
 * expect(editDistance("SP11", "PS11")).toBe(1);
 * expect(editDistance("kitten", "sitting")).toBe(3);
 * expect(editDistance("kitten", "sitting", 2)).toBe(Infinity);
 * ```
 */
export function editDistance(first: string, second: string, limit = Infinity): number {
  const rows = [...first];
  const columns = [...second];
  if (Math.abs(rows.length - columns.length) > limit) return Infinity;

  const at = (cells: readonly number[], column: number): number => cells[column] ?? Infinity;
  let beforePrevious: readonly number[] = [];
  let previous: readonly number[] = Array.from({ length: columns.length + 1 }, (_, index) => index);
  for (let row = 1; row <= rows.length; row += 1) {
    const current = [row];
    for (let column = 1; column <= columns.length; column += 1) {
      const replaced = at(previous, column - 1) + (rows[row - 1] === columns[column - 1] ? 0 : 1);
      const isSwap = row > 1 && rows[row - 1] === columns[column - 2] && rows[row - 2] === columns[column - 1];
      const swapped = isSwap ? at(beforePrevious, column - 2) + 1 : Infinity;
      current.push(Math.min(at(previous, column) + 1, at(current, column - 1) + 1, replaced, swapped));
    }
    // A swap reaches back two rows, so only two rows above the limit in a row end the search.
    if (Math.min(...current) > limit && Math.min(...previous) > limit) return Infinity;
    beforePrevious = previous;
    previous = current;
  }
  const distance = previous[columns.length] ?? Infinity;
  return distance > limit ? Infinity : distance;
}
