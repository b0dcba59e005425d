/**
 * The outcome of a piece of work that may fail for an ordinary reason: a file that does not parse, input that does not fit.
 * A thrown error, by contrast, means a mistake in the program itself.
 *
 * @example
 * ```ts
 * import { err, ok, type Result } from "ohmward/base";
 *
 * function readCavity(text: string): Result<number, string> {
 *   const cavity = Number(text);
 *   return Number.isInteger(cavity) ? ok(cavity) : err(`Not a cavity number: "${text}"`);
 * }
 *
 * expect(readCavity("36")).toEqual({ ok: true, value: 36 });
 * expect(readCavity("x")).toEqual({ ok: false, error: 'Not a cavity number: "x"' });
 * ```
 */
export type Result<Value, Failure> =
  { readonly ok: true; readonly value: Value } | { readonly ok: false; readonly error: Failure };

/**
 * Makes the successful case of a {@link Result}.
 *
 * @param value what the work produced
 * @returns `{ ok: true, value }`
 */
export function ok<Value>(value: Value): { readonly ok: true; readonly value: Value } {
  return { ok: true, value };
}

/**
 * Makes the failed case of a {@link Result}.
 *
 * @param error why there is no value, as data that a caller can tell apart
 * @returns `{ ok: false, error }`
 */
export function err<Failure>(error: Failure): { readonly ok: false; readonly error: Failure } {
  return { ok: false, error };
}
