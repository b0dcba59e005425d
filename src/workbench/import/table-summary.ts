import { z } from "zod";
import type { TablePreview } from "../../formats/index.ts";
import type { Frozen } from "../frozen.ts";

/** How a table was understood, for people. */
export const TableSummary = z.object({
  shape: z.enum(["pin", "wire"]),
  sheet: z.string().optional(),
  sheets: z.array(z.string()).optional(),
  /** Row from 1. */
  headingRow: z.number(),
  /** Rows below the headings. */
  rows: z.number(),
  encoding: z.string().optional(),
  delimiter: z.string().optional(),
  decimal: z.string().optional(),
  endSeparator: z.string().optional(),
  /** What is taken from which column, counted from 1. */
  columns: z.array(
    z.object({ column: z.number(), heading: z.string(), field: z.string(), unit: z.string().optional() }),
  ),
  /** Headings of columns that nothing is taken from. */
  unused: z.array(z.string()),
  /** Colour codes of the file, most frequent first; one without `colour` is not read. */
  colours: z.array(z.object({ written: z.string(), count: z.number(), colour: z.string().optional() })),
});

export type TableSummary = Frozen<z.infer<typeof TableSummary>>;

/**
 * Sums up how a table was understood.
 *
 * @param preview The preview of the table.
 */
export function tableSummary(preview: TablePreview): TableSummary {
  const { mapping, headings, headingRow, rowCount, colours } = preview;
  const used = new Set(mapping.columns.map((each) => each.column));
  const texts = (["sheet", "encoding", "delimiter", "decimal", "endSeparator"] as const).flatMap((name) => {
    const text = preview[name];
    return text === undefined ? [] : [[name, text] as const];
  });
  return {
    shape: mapping.shape,
    headingRow,
    rows: rowCount,
    ...Object.fromEntries(texts),
    ...(preview.sheets ? { sheets: preview.sheets } : {}),
    columns: mapping.columns.map(({ column, field, unit }) => {
      return { column: column + 1, heading: headings[column] ?? "", field, ...(unit ? { unit } : {}) };
    }),
    unused: headings.filter((heading, at) => heading.trim() !== "" && !used.has(at)),
    colours: colours.map((each) => ({ ...each })),
  };
}
