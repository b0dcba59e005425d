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

/**
 * Ends a `switch` over a closed set of cases. The compiler refuses the call while a case is missing.
 *
 * @param value what is left after all cases; its type must be `never`
 * @returns never
 * @throws TypeError when it is reached after all, which means that data got past its schema
 *
 * @example
 * ```ts
 * import { unreachable } from "ohmward/base";
 *
 * function label(state: "open" | "closed"): string {
 *   switch (state) {
 *     case "open":
 *       return "contact open";
 *     case "closed":
 *       return "contact closed";
 *     default:
 *       return unreachable(state);
 *   }
 * }
 *
 * expect(label("open")).toBe("contact open");
 * ```
 */
export function unreachable(value: never): never {
  throw new TypeError(`Cannot handle case: no branch is written for ${describe(value)}`);
}

function describe(value: unknown): string {
  return typeof value === "bigint" ? value.toString() : String(JSON.stringify(value));
}

declare const brandName: unique symbol;

/**
 * A value that carries a name at compile time only, so that two kinds of id cannot be mixed up though both are strings.
 * At run time the value is the plain `Base`. The one place that may turn a plain value into a branded one is the room
 * that has checked it.
 *
 * @example
 * ```ts
 * import type { Brand } from "ohmward/base";
 *
 * type WireId = Brand<string, "WireId">;
 * const wire = "W89" as WireId;
 * expect(wire.startsWith("W")).toBe(true);
 * ```
 */
export type Brand<Base, Name extends string> = Base & { readonly [brandName]: Name };

/**
 * A file of `data-schemas/` that is written by a program from what the code holds. A room that owns such files exports a
 * function `generatedFiles(): readonly GeneratedFile[]` from its `index.ts`; `npm run generate` finds it there.
 */
export interface GeneratedFile {
  /** Name inside `data-schemas/`, without a folder: `harness.schema.json`. */
  readonly fileName: string;
  /** The whole text, the same at every call, with a line end at its end. */
  readonly text: string;
}
