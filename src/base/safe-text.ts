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
