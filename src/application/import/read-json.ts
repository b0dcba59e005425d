import type { z } from "zod";
import { err, ok, type Result } from "../../base/index.ts";

/**
 * Reads a file of JSON in a form that is known.
 *
 * @param text The text, with or without a byte order mark.
 * @param form The form.
 * @returns What it holds, or in words what is wrong with it.
 */
export function readJson<Of>(text: string, form: z.ZodType<Of>): Result<Of, string> {
  let data: unknown;
  try {
    data = JSON.parse(text.replace(/^\uFEFF/u, ""));
  } catch {
    return err("it is not JSON");
  }
  const read = form.safeParse(data);
  if (read.success) return ok(read.data);
  const [issue] = read.error.issues;
  return err(`at ${issue?.path.join(".") || "the top"}: ${issue?.message ?? "it has another form"}`);
}
