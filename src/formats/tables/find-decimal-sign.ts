import { numberWays, type DecimalSign } from "../../base/index.ts";

/**
 * Finds the decimal sign from numbers that can only be read one way: `0,75`, `1.234,5`, `12.5`.
 *
 * @param texts Cells that may hold numbers.
 * @returns The sign; undefined if no cell tells, or if cells contradict each other.
 */
export function findDecimalSign(texts: readonly string[]): DecimalSign | undefined {
  const found = new Set<DecimalSign>();
  for (const text of texts) {
    const [way, ...more] = numberWays(/^[+-]?\s*(\d[\d.,']*|[.,]\d+)/u.exec(text.trim())?.[1] ?? "");
    if (!way || more.length > 0) continue;
    if (way.decimal) found.add(way.decimal === "," ? "comma" : "point");
    else if (way.group === "," || way.group === ".") found.add(way.group === "," ? "point" : "comma");
  }
  const [only] = found;
  return found.size === 1 ? only : undefined;
}
