import { appendFileSync, existsSync, readFileSync } from "node:fs";

/** Rows of a long run, kept in a file as they come, so that a run that was broken off goes on where it stopped. */
export interface KeptRows<Row> {
  /** The row of an id; worked out and written down if it is not there yet. */
  readonly row: (id: string, make: () => Row) => Row;
  /** The row of an id, if it is there. */
  readonly known: (id: string) => Row | undefined;
}

/**
 * Opens a file of rows.
 *
 * @param files Files of rows, written by nothing but this; what is new goes into the first. Without one, rows are only remembered.
 */
export function keptRows<Row>(files: readonly string[]): KeptRows<Row> {
  const rows = new Map<string, Row>();
  for (const file of files) {
    if (!existsSync(file)) continue;
    for (const line of readFileSync(file, "utf8").split("\n")) {
      if (line === "") continue;
      // Written by this and nothing else.
      const { id, row } = JSON.parse(line) as { readonly id: string; readonly row: Row };
      rows.set(id, row);
    }
  }
  const [first] = files;
  return {
    known: (id) => rows.get(id),
    row: (id, make) => {
      const before = rows.get(id);
      if (before !== undefined) return before;
      const row = make();
      rows.set(id, row);
      if (first !== undefined) appendFileSync(first, `${JSON.stringify({ id, row })}\n`);
      return row;
    },
  };
}
