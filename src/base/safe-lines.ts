import { safeText } from "./safe-text.ts";

/**
 * Joins lines to a text that is safe to show: line ends and tabs that a document holds within a line become a space, so that no line can
 * be made up; other characters that steer are shown by their number, as by `safeText()`.
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
  return `${lines.map((line) => safeText(line.replace(/[\t\n\v\f\r\u0085\u2028\u2029]+/gu, " "))).join("\n")}\n`;
}
