/**
 * Compares two ids the way a person reads them: runs of digits count as numbers, so `W2` comes before `W10`.
 * A total order: it gives 0 only for equal texts, so a sorted list does not depend on the order it came in.
 * Letters compare by code unit, as the ids of a harness do not depend on a language.
 *
 * Common practice, no source.
 *
 * @param first an id or any text
 * @param second the other one
 * @returns a negative number when `first` comes before, a positive one when it comes after, 0 when they are equal
 *
 * @example
 * ```ts
 * import { naturalOrder } from "ohmward/base";
 *
 * expect(["W10", "W2", "A1.X1:10", "A1.X1:2"].sort(naturalOrder)).toEqual(["A1.X1:2", "A1.X1:10", "W2", "W10"]);
 * ```
 */
export function naturalOrder(first: string, second: string): number {
  if (first === second) return 0;
  const firstParts = split(first);
  const secondParts = split(second);
  const shared = Math.min(firstParts.length, secondParts.length);
  for (let index = 0; index < shared; index += 1) {
    const order = comparePart(firstParts[index] ?? "", secondParts[index] ?? "");
    if (order !== 0) return order;
  }
  if (firstParts.length !== secondParts.length) return firstParts.length - secondParts.length;
  // Only leading zeros differ (W2 and W02).
  return compareText(first, second);
}

function split(text: string): readonly string[] {
  return text.match(/[0-9]+|[^0-9]+/gu) ?? [];
}

function comparePart(first: string, second: string): number {
  const firstIsNumber = startsWithDigit(first);
  if (firstIsNumber !== startsWithDigit(second)) return firstIsNumber ? -1 : 1;
  return firstIsNumber ? compareDigits(first, second) : compareText(first, second);
}

function startsWithDigit(part: string): boolean {
  return /^[0-9]/u.test(part);
}

// As texts, because a run of digits can be longer than a number holds exactly.
function compareDigits(first: string, second: string): number {
  const firstDigits = first.replace(/^0+/u, "");
  const secondDigits = second.replace(/^0+/u, "");
  return firstDigits.length - secondDigits.length || compareText(firstDigits, secondDigits);
}

function compareText(first: string, second: string): number {
  if (first === second) return 0;
  return first < second ? -1 : 1;
}
