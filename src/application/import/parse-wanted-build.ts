import type { WantedBuild } from "../../import-export/index.ts";

/**
 * Reads a build that a person asks for, with its options: `winter=COLD,TILLER`, or `plain=` for none.
 *
 * @param text What was typed.
 * @returns The build; undefined where no name stands before an equals sign.
 * @example
 * ```ts
 * import { parseWantedBuild } from "ohmward/application";
 * expect(parseWantedBuild("winter = COLD, TILLER")).toEqual({ id: "winter", options: ["COLD", "TILLER"] });
 * expect(parseWantedBuild("=COLD")).toBeUndefined();
 * ```
 */
export function parseWantedBuild(text: string): WantedBuild | undefined {
  const [, name = "", list = ""] = /^([^=]+)=(.*)$/u.exec(text) ?? [];
  const id = name.trim();
  return id === "" ? undefined : { id, options: list.split(",").flatMap((each) => each.trim() || []) };
}
