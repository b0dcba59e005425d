/**
 * Writes rows of cells in aligned columns, two spaces between them. A column in which every cell is empty is left out, so the same
 * rows serve answers that know more and answers that know less. Lines are not wrapped.
 *
 * @param rows The rows; missing cells at the end count as empty.
 * @param indent Spaces before each line.
 * @returns The lines, without blanks at their ends.
 */
export function columns(rows: readonly (readonly string[])[], indent = 2): readonly string[] {
  const count = Math.max(0, ...rows.map((row) => row.length));
  const widths = Array.from({ length: count }, (_, at) => Math.max(0, ...rows.map((row) => widthOf(row[at] ?? ""))));
  const used = widths.flatMap((width, at) => (width > 0 ? [at] : []));
  return rows.map((row) => {
    const cells = used.map((at) => {
      const cell = row[at] ?? "";
      return cell + " ".repeat((widths[at] ?? 0) - widthOf(cell));
    });
    return `${" ".repeat(indent)}${cells.join("  ")}`.trimEnd();
  });
}

/** Whole characters, not UTF-16 units: a colour word or a unit may hold any letter. */
function widthOf(text: string): number {
  return [...text].length;
}
