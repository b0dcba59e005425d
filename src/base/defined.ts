/**
 * The fields of a record that have a value, to be spread into another: a field that may be absent must not be there as `undefined`.
 *
 * @example
 * ```ts
 * import { defined } from "ohmward/base";
 *
 * expect(Object.keys({ id: "W1", ...defined({ net: "RAIL-P", group: undefined }) })).toEqual(["id", "net"]);
 * ```
 */
export function defined<Fields extends object>(
  fields: Fields,
): { [Name in keyof Fields]?: Exclude<Fields[Name], undefined> } {
  const present = Object.entries(fields).filter(([, value]) => value !== undefined);
  return Object.fromEntries(present) as { [Name in keyof Fields]?: Exclude<Fields[Name], undefined> };
}
