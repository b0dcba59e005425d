import { z } from "zod";
import type { ImportProblem } from "../../import-export/index.ts";
import type { Frozen } from "../frozen.ts";

/** One problem of a file that is read or written. */
export const FileProblem = z.object({
  severity: z.enum(["error", "warning"]).describe("`error` keeps the data from being used, `warning` does not"),
  code: z.string().describe("Short name of the reason"),
  at: z
    .object({
      file: z.string().optional().describe("Name of the file"),
      sheet: z.string().optional().describe("Sheet of the workbook"),
      row: z.number().optional().describe("Row of the table, from 1"),
      column: z.string().optional().describe("Column by heading or letter"),
      line: z.number().optional().describe("Line in the file, from 1"),
      path: z.string().optional().describe("Path in the document or file"),
    })
    .describe(
      "Rows and lines count from 1; the path leads into a structured file, or into the document made from the file",
    ),
  message: z.string().describe("What is wrong, in words"),
  hint: z.string().describe("What to do about it, in words"),
});

export type FileProblem = Frozen<z.infer<typeof FileProblem>>;

/** A problem as plain data with nothing but what the report describes. */
export function fileProblem({ severity, code, at, message, hint }: ImportProblem): FileProblem {
  const place = Object.fromEntries(Object.entries(at).filter(([, value]) => value !== undefined));
  return { severity, code, at: place, message, hint };
}
