import { z } from "zod";
import type { ImportProblem } from "../../formats/index.ts";
import type { Frozen } from "../frozen.ts";

/** One problem of a file that is read or written. */
export const FileProblem = z.object({
  severity: z.enum(["error", "warning"]),
  code: z.string(),
  /** Rows and lines count from 1; the path leads into a structured file, or into the document made from the file. */
  at: z.object({
    file: z.string().optional(),
    sheet: z.string().optional(),
    row: z.number().optional(),
    column: z.string().optional(),
    line: z.number().optional(),
    path: z.string().optional(),
  }),
  message: z.string(),
  hint: z.string(),
});

export type FileProblem = Frozen<z.infer<typeof FileProblem>>;

/** A problem as plain data with nothing but what the report describes. */
export function fileProblem({ severity, code, at, message, hint }: ImportProblem): FileProblem {
  const place = Object.fromEntries(Object.entries(at).filter(([, value]) => value !== undefined));
  return { severity, code, at: place, message, hint };
}
