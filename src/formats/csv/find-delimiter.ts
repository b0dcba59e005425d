/** What may stand between the cells of a CSV text. */
export type Delimiter = "," | ";" | "\t";

const CANDIDATES: readonly Delimiter[] = [";", "\t", ","];
const MOST_LINES = 60;
const MOST_CHARACTERS = 64 * 1024;

/**
 * Finds the delimiter of a CSV text from its first lines: the one that gives the most lines the same number of cells, more cells
 * counting for more. Quoted cells are stepped over.
 *
 * @param text The text.
 * @returns The delimiter, or undefined if no line has two cells by any of them.
 */
export function findDelimiter(text: string): Delimiter | undefined {
  const lines = firstLines(text);
  let best: { delimiter: Delimiter; score: number } | undefined;
  for (const delimiter of CANDIDATES) {
    const counts = new Map<number, number>();
    for (const line of lines) {
      const cells = line.split(delimiter).length;
      if (cells > 1) counts.set(cells, (counts.get(cells) ?? 0) + 1);
    }
    for (const [cells, times] of counts) {
      const score = times * Math.log2(cells);
      if (!best || score > best.score) best = { delimiter, score };
    }
  }
  return best?.delimiter;
}

/** The first lines without what is quoted. */
function firstLines(text: string): readonly string[] {
  const lines: string[] = [];
  let line = "";
  let isQuoted = false;
  for (const character of text.slice(0, MOST_CHARACTERS)) {
    if (character === '"') isQuoted = !isQuoted;
    else if (isQuoted) continue;
    else if (character === "\n" || character === "\r") {
      if (line.trim() !== "") lines.push(line);
      if (lines.length >= MOST_LINES) return lines;
      line = "";
    } else line += character;
  }
  if (line.trim() !== "") lines.push(line);
  return lines;
}
