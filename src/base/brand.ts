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
