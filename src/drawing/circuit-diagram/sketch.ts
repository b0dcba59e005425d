import type { Rect, Shape, Tone } from "./shapes.ts";
import { textWidth, type Face } from "./text-width.ts";

/** Sizes of type and lines of a diagram, in px. No text is smaller than 12. */
export const SIZE = {
  id: 13,
  small: 12,
  boxId: 15,
  heading: 18,
  /** Height of a row of text. */
  row: 16,
  /** Least distance of two things that do not touch. */
  gap: 3,
  strongLine: 2.2,
  weakLine: 1.6,
  strongWire: 6,
  weakWire: 3.6,
  /** Added to both sides of a wire. */
  wireRim: 1,
  /** How far a bar is broken on both sides of a wire that it crosses. */
  barGap: 8,
} as const;

/** What a thing looks like around its own point, which is 0, 0. */
export interface Sketch {
  readonly shapes: readonly Shape[];
  /** Rectangles that nothing else may cover. */
  readonly blocks: readonly Rect[];
  /** Where a line from above ends, and one from below. */
  readonly top: number;
  readonly bottom: number;
}

/** A row of text to be written. */
export interface Row {
  readonly text: string;
  readonly face: Face;
  readonly size: number;
  readonly tone: Tone;
}

/** A row with an id. */
export function idRow(text: string, strong: boolean): Row {
  return { text, face: "mono", size: SIZE.id, tone: strong ? "ink" : "quiet" };
}

/** A row with words. */
export function wordRow(text: string, strong: boolean): Row {
  return { text, face: "plain", size: SIZE.small, tone: strong ? "ink" : "quiet" };
}

/** The width of a row. */
export function rowWidth({ text, face, size }: Row): number {
  return textWidth(text, face, size);
}

/** Rows under one another with the rectangles they take. */
export interface Written {
  readonly shapes: readonly Shape[];
  readonly blocks: readonly Rect[];
}

/**
 * Writes rows under one another.
 *
 * @param rows The rows.
 * @param x Where they begin.
 * @param y Upper edge of the first.
 */
export function writeRows(rows: readonly Row[], x: number, y: number): Written {
  const placed = rows.map((row, at) => ({ row, y: y + at * SIZE.row, width: rowWidth(row) }));
  return {
    shapes: placed.map(({ row, y: top, width }) => ({
      ...{ kind: "text", at: { x, y: top + 12 }, text: row.text, face: row.face },
      ...{ size: row.size, tone: row.tone, width },
    })),
    blocks: placed.map(({ y: top, width }) => ({ x0: x, y0: top, x1: x + width, y1: top + SIZE.row })),
  };
}

/**
 * Breaks a text into rows of at most a width; a row too many ends in an ellipsis, and so does a word that is too wide.
 *
 * @param text The text.
 * @param width Most width of a row in px, at the size of small text.
 * @param most Most rows.
 */
export function wrapText(text: string, width: number, most: number): readonly string[] {
  const fits = (line: string): boolean => textWidth(line, "plain", SIZE.small) <= width;
  const rows: string[] = [];
  for (const word of text.split(/\s+/u).filter((each) => each !== "")) {
    const last = rows.at(-1);
    if (last !== undefined && fits(`${last} ${word}`)) rows[rows.length - 1] = `${last} ${word}`;
    else rows.push(word);
  }
  const kept = rows.slice(0, most);
  const last = kept.at(-1);
  if (last !== undefined && rows.length > most) kept[kept.length - 1] = `${last}…`;
  return kept.map((row) => (fits(row) ? row : shorten(row, fits)));
}

function shorten(text: string, fits: (line: string) => boolean): string {
  let signs = [...text.replace(/…$/u, "")];
  while (signs.length > 1 && !fits(`${signs.join("")}…`)) signs = signs.slice(0, -1);
  return `${signs.join("")}…`;
}

/** Puts sketches of parts of one thing together. */
export function joinWritten(...parts: readonly Written[]): Written {
  return { shapes: parts.flatMap(({ shapes }) => shapes), blocks: parts.flatMap(({ blocks }) => blocks) };
}

/** A sketch with nothing in it. */
export const NOTHING: Written = { shapes: [], blocks: [] };
