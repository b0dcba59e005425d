/** Most signs of a name on a drawing; ids of other systems may have many more. */
const MOST_SIGNS = 20;

/**
 * A name as it is written on a drawing: the middle of a long one is left out. More of its start is kept than of its end.
 *
 * @param name The whole name.
 * @param most Most signs, 20 if left out.
 * @returns At most so many signs.
 * @example
 * ```ts
 * import { shortName } from "ohmward/drawing";
 * expect(shortName("A1.X1")).toBe("A1.X1");
 * expect(shortName("Harness-Front-Wire-000123")).toBe("Harness-Fro…e-000123");
 * expect(shortName("Harness-Front-Wire-000123", 13)).toBe("Harness…00123");
 * ```
 */
export function shortName(name: string, most: number = MOST_SIGNS): string {
  const signs = [...name];
  if (signs.length <= most) return name;
  const end = Math.floor(most * 0.4);
  return [...signs.slice(0, most - end - 1), "…", ...signs.slice(-end)].join("");
}
