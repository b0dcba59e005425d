/**
 * Joins lines to a text that is safe to show in a terminal: what a document may hold that would steer one (control characters, line
 * ends, marks that turn the direction of writing) becomes a space.
 *
 * @param lines The lines.
 * @returns The text, with a line end at its end.
 */
export function plainText(lines: readonly string[]): string {
  return `${lines.map((line) => line.replace(/[\p{Cc}\p{Cf}\p{Zl}\p{Zp}]+/gu, " ")).join("\n")}\n`;
}
