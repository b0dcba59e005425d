import { z } from "zod";
import type { LedgerRow } from "../../import-export/index.ts";
import type { Frozen } from "../frozen.ts";

const shares = z.array(
  z.object({ what: z.string().describe("Which it is, in words"), count: z.number().describe("How many") }),
);

/** What became of everything a file holds: each element once, under its class; `found` is the sum of the counts behind it. */
export const FileLedger = z.object({
  file: z.string().describe("Name of the file"),
  rows: z
    .array(
      z.object({
        class: z.string().describe("Name of the class in the file"),
        found: z.number().describe("How many the file holds"),
        kept: shares.describe("Where it is in the document"),
        leftOut: shares.describe("Why it is not used"),
      }),
    )
    .describe("Classes of the file, each with the use of its elements"),
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
