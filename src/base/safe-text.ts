/**
 * What may steer a terminal or turn the direction of writing: controls of ECMA-48 (C0, C1), format characters such as the bidi controls,
 * line and paragraph separators. Line feeds are left, and the two joiners, which belong to the spelling of some scripts.
 */
const STEERING = /(?![\n\u200c\u200d])[\p{Cc}\p{Cf}\p{Zl}\p{Zp}]/gu;

/**
 * Makes a text safe to show: characters that cannot be seen but steer what shows them are written by their number, as JSON does
 * (`\u009b`). JSON stays the same data by it.
 *
 * Source: ECMA-48; Unicode Standard Annex 9 (bidi controls); RFC 8259 section 7 for the way they are written.
 *
 * @param text Any text, with line feeds where lines end.
 * @example
 * ```ts
 * import { safeText } from "ohmward/base";
 * expect(safeText("A1\u202e.X1")).toBe("A1\\u202e.X1");
 * ```
 */
export function safeText(text: string): string {
  return text.replace(STEERING, (found) => {
    const units = Array.from({ length: found.length }, (_, index) => found.charCodeAt(index));
    return units.map((unit) => `\\u${unit.toString(16).padStart(4, "0")}`).join("");
  });
}

/** No name or path is longer; a word of this length says nothing more by all of its letters and would fill the terminal. */
const LONG_WORD = /\S{4200,}/gu;

/**
 * Joins lines to a text that is safe to show: line ends and tabs that a document holds within a line become a space, so that no line can
 * be made up; other characters that steer are shown by their number, as by `safeText()`. Of a word that is longer than any name, start and end are left.
 *
 * @param lines The lines.
 * @returns The text, with a line end at its end.
 * @example
 * ```ts
 * import { safeLines } from "ohmward/base";
 * expect(safeLines(["Lamp\nCautions: none", "zone Z1"])).toBe("Lamp Cautions: none\nzone Z1\n");
 * ```
 */
export function safeLines(lines: readonly string[]): string {
  return `${lines.map(safeLine).join("\n")}\n`;
}

function safeLine(line: string): string {
  const oneLine = line.replace(/[\t\n\v\f\r\u0085\u2028\u2029]+/gu, " ");
  return safeText(
    oneLine.replace(LONG_WORD, (word) => `${word.slice(0, 100)}…(${word.length} characters)…${word.slice(-50)}`),
  );
}

/**
 * What a fault says of itself, in one line.
 *
 * @param fault What was thrown; anything can be.
 */
export function faultLine(fault: unknown): string {
  const text = fault instanceof Error ? `${fault.name}: ${fault.message}` : String(fault);
  return text.replaceAll(/\s+/gu, " ").slice(0, 300);
}
