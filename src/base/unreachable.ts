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
