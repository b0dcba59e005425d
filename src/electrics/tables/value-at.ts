/**
 * Reads a straight-line table; beyond its ends the value of the end stands.
 *
 * @param table Input and output values, input rising.
 * @param input The input.
 */
export function valueAt(table: readonly (readonly [number, number])[], input: number): number {
  const after = table.findIndex(([known]) => known >= input);
  const [first, last] = [table[0], table.at(-1)];
  if (!first || !last) throw new RangeError("Cannot read a table without rows");
  if (after === 0) return first[1];
  const low = table[after - 1];
  const high = table[after];
  if (!low || !high) return last[1];
  return low[1] + ((high[1] - low[1]) * (input - low[0])) / (high[0] - low[0]);
}
