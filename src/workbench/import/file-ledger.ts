import { z } from "zod";
import type { LedgerRow } from "../../formats/index.ts";
import type { Frozen } from "../frozen.ts";

const shares = z.array(z.object({ what: z.string(), count: z.number() }));

/** What became of everything a file holds: each element once, under its class; `found` is the sum of the counts behind it. */
export const FileLedger = z.object({
  file: z.string(),
  rows: z.array(
    z.object({
      class: z.string(),
      found: z.number(),
      /** What it is in now. */
      kept: shares,
      /** Why it is in nothing. */
      leftOut: shares,
    }),
  ),
});

export type FileLedger = Frozen<z.infer<typeof FileLedger>>;

/** Reasons that are shown of a row; the rest is counted. */
const MOST_REASONS = 3;

/**
 * A row of a ledger as the cells of a table: class, found, kept, left out, and why.
 *
 * @param row The row.
 */
export function ledgerText(
  row: LedgerRow,
): readonly [name: string, found: string, kept: string, out: string, why: string] {
  const sum = (list: LedgerRow["kept"]): number => list.reduce((total, { count }) => total + count, 0);
  const reasons = row.leftOut.slice(0, MOST_REASONS).map(({ what, count }) => `${count} ${what}`);
  const more = row.leftOut.length - reasons.length;
  const why = [...reasons, ...(more > 0 ? [`${more} more reasons`] : [])].join("; ");
  return [row.class, String(row.found), String(sum(row.kept)), String(sum(row.leftOut)), why];
}
