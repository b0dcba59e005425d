import type { PointNamer } from "./point-namer.ts";
import type { TableEntries } from "./table-entries.ts";
import type { FactContext } from "./wire-facts.ts";

/** What rows are read with. */
export interface EntryContext extends FactContext {
  readonly namer: PointNamer;
  readonly endSeparator: string | undefined;
}

/** Reading rows, in steps that tell the share done. */
export type EntryReading = Generator<number, TableEntries, void>;

/** Rows that are read, or wires that are put into a draft, between two chances to stop: a fraction of a second. */
export const ROWS_A_STEP = 4096;
