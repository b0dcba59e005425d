/**
 * The number of a spreadsheet column from its letters, from 0: `A` is 0, `AA` is 26.
 *
 * @param name A column or cell name, such as `AB` or `AB12`.
 * @returns The number, or undefined if the name does not start with one to three capital letters.
 */
export function columnNumber(name: string): number | undefined {
  const letters = /^[A-Z]{1,3}(?![A-Z])/u.exec(name)?.[0];
  if (letters === undefined) return undefined;
  let number = 0;
  for (const letter of letters) number = number * 26 + letter.charCodeAt(0) - 64;
  return number - 1;
}

/** The letters of a spreadsheet column, from its number from 0. */
export function columnName(number: number): string {
  const before = Math.floor(number / 26);
  return (before > 0 ? columnName(before - 1) : "") + String.fromCharCode(65 + (number % 26));
}

/** A rectangle of cells; rows from 1, columns from 0, both ends included. */
export interface CellRange {
  readonly top: number;
  readonly bottom: number;
  readonly left: number;
  readonly right: number;
}

/** Reads a range of cells such as `A2:A5`; undefined if the text is none. */
export function readRange(text: string): CellRange | undefined {
  const match = /^([A-Z]{1,3})([0-9]{1,7}):([A-Z]{1,3})([0-9]{1,7})$/u.exec(text);
  const [left, right] = [columnNumber(match?.[1] ?? ""), columnNumber(match?.[3] ?? "")];
  if (!match || left === undefined || right === undefined) return undefined;
  return { top: Number(match[2]), bottom: Number(match[4]), left, right };
}
