/** A row: what was measured, and a cell for each size. */
export interface Row {
  readonly name: string;
  readonly cells: readonly string[];
}

/** A time in ms as people read it: three figures, in s, ms or µs. */
export function showTime(milliseconds: number): string {
  if (!Number.isFinite(milliseconds)) return "-";
  if (milliseconds >= 1000) return `${(milliseconds / 1000).toPrecision(3)} s`;
  if (milliseconds >= 1) return `${milliseconds.toPrecision(3)} ms`;
  return `${(milliseconds * 1000).toPrecision(3)} µs`;
}

/** A ratio as people read it. */
export function showRatio(ratio: number): string {
  return Number.isFinite(ratio) ? `x ${ratio.toPrecision(3)}` : "-";
}

/** Prints a table with a heading. */
export function printTable(heading: string, columns: readonly string[], rows: readonly Row[]): void {
  const width = Math.max(heading.length, ...rows.map((row) => row.name.length));
  const cell = Math.max(12, ...columns.map((column) => column.length + 2));
  const line = (name: string, cells: readonly string[]): string =>
    `${name.padEnd(width)}${cells.map((text) => text.padStart(cell)).join("")}`;
  console.log(`\n${line(heading, columns)}\n${"-".repeat(width + cell * columns.length)}`);
  for (const row of rows) console.log(line(row.name, row.cells));
}
