import { z } from "zod";
import type { TablePreview } from "../../import-export/index.ts";
import type { Frozen } from "../frozen.ts";

/** How a table was understood, for people. */
export const TableSummary = z.object({
  shape: z.enum(["pin", "wire"]).describe("Shape of the table: a row for each `pin` or each `wire`"),
  sheet: z.string().optional().describe("Sheet of the workbook"),
  sheets: z.array(z.string()).optional().describe("Sheets of the workbook"),
  headingRow: z.number().describe("Row from 1"),
  rows: z.number().describe("Rows below the headings"),
  encoding: z.string().optional().describe("Character encoding of the file"),
  delimiter: z.string().optional().describe("Character between the cells"),
  decimal: z.string().optional().describe("Decimal sign"),
  endSeparator: z.string().optional().describe("Text between connector and pin where both are in one cell"),
  columns: z
    .array(
      z.object({
        column: z.number().describe("Position from 1"),
        heading: z.string().describe("Heading of the column"),
        field: z.string().describe("Column meaning"),
        unit: z.string().optional().describe("Unit of the column"),
      }),
    )
    .describe("Column meaning, by column counted from 1"),
  unused: z.array(z.string()).describe("Headings of the columns that are not used"),
  colours: z
    .array(
      z.object({
        written: z.string().describe("Colour as written in the file"),
        count: z.number().describe("How often it occurs"),
        colour: z.string().optional().describe("Colour code it was read as (IEC 60757)"),
      }),
    )
    .describe("Colour codes of the file, most frequent first; one without `colour` is not read"),
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
