import { err, ok, type Result } from "../base/index.ts";
import { findJsonFault, type JsonFault } from "./json-fault.ts";

/** Why a text is not JSON. */
export type JsonRefusal = Pick<JsonFault, "reason"> & Partial<Pick<JsonFault, "line" | "column">>;

/**
 * Reads a text as JSON; a byte order mark before it is passed over.
 *
 * @param text The text.
 * @returns The value, or the first place where the text stops being JSON.
 * @example
 * ```ts
 * import { parseJson } from "ohmward/harness-model";
 * expect(parseJson("[1, 2")).toEqual({ ok: false, error: { line: 1, column: 6, reason: "found the end of the text, wanted a comma or ]" } });
 * ```
 */
export function parseJson(text: string): Result<unknown, JsonRefusal> {
  const body = text.startsWith("\uFEFF") ? text.slice(1) : text;
  try {
    return ok(JSON.parse(body) as unknown);
  } catch {
    const fault = findJsonFault(body);
    if (!fault) return err({ reason: "it cannot be read" });
    const { line, column, reason } = fault;
    return err({ line, column, reason });
  }
}

/** Place and reason in a sentence: "line 1, column 6: found the end of the text, wanted a comma or ]". */
export function jsonRefusalText({ line, column, reason }: JsonRefusal): string {
  return line === undefined ? reason : `line ${line}, column ${column ?? 1}: ${reason}`;
}
