/** A text that a spreadsheet would take for a formula, or that stands for one behind apostrophes. */
const LOOKS_LIKE_FORMULA = /^'*[=+\-@\t\r]/u;

/**
 * Guards a text against being run as a formula when the file is opened in a spreadsheet: an apostrophe is put before it.
 * `unguardCell` gives back exactly the same text.
 *
 * @param text The text of a cell.
 * @example
 * ```ts
 * import { guardCell, unguardCell } from "ohmward/formats";
 * expect(guardCell("=1+1")).toBe("'=1+1");
 * expect(unguardCell(guardCell("'=1+1"))).toBe("'=1+1");
 * ```
 * Source: the advice on CSV injection of the Open Worldwide Application Security Project.
 */
export function guardCell(text: string): string {
  return LOOKS_LIKE_FORMULA.test(text) ? `'${text}` : text;
}

/** Takes off the guard of `guardCell`; any other text stays as it is. */
export function unguardCell(text: string): string {
  return text.startsWith("'") && LOOKS_LIKE_FORMULA.test(text) ? text.slice(1) : text;
}
