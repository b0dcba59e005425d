/** Most signs of a name on a drawing; ids of other systems may have many more. */
const MOST_SIGNS = 20;
/** Signs kept of the end, where long ids differ most. */
const END_SIGNS = 8;

/**
 * A name as it is written on a drawing: the middle of a long one is left out.
 *
 * @param name The whole name.
 * @returns At most 20 signs.
 * @example
 * ```ts
 * import { shortName } from "ohmward/drawing";
 * expect(shortName("A1.X1")).toBe("A1.X1");
 * expect(shortName("Harness-Front-Wire-000123")).toBe("Harness-Fro…e-000123");
 * ```
 */
export function shortName(name: string): string {
  const signs = [...name];
  if (signs.length <= MOST_SIGNS) return name;
  return [...signs.slice(0, MOST_SIGNS - END_SIGNS - 1), "…", ...signs.slice(-END_SIGNS)].join("");
}
