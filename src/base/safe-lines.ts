import { safeText } from "./safe-text.ts";

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
