/** Longest id a harness document takes, in characters. */
export const MOST_ID_CHARACTERS = 64;

/**
 * Makes a legal id of what a file calls a thing: a letter or digit first, then letters, digits and `. _ + -` only. Anything else
 * becomes one hyphen; signs before the first letter or digit go, as in the product sign of IEC 81346 (`-X1`).
 *
 * @param text The id as written in the file.
 * @returns A legal id, or undefined if nothing legal is left.
 * @example
 * ```ts
 * import { cleanId } from "ohmward/formats";
 * expect(["A1.X1", "-X1", "Plug 4 / left", "?"].map(cleanId)).toEqual(["A1.X1", "X1", "Plug-4-left", undefined]);
 * ```
 */
export function cleanId(text: string): string | undefined {
  const sign = SIGNS.get(text.trim());
  if (sign !== undefined) return sign;
  const cleaned = text
    .normalize("NFC")
    .replace(/[^\p{L}\p{N}._+-]+/gu, "-")
    .replace(/^[._+-]+/u, "")
    .replace(/-+$/u, (end) => (text.trim().endsWith(end) ? end : ""));
  return cleaned === "" ? undefined : cut(cleaned, MOST_ID_CHARACTERS);
}

/** Battery posts and the like are often called by their sign alone. */
const SIGNS: ReadonlyMap<string, string> = new Map([
  ["+", "plus"],
  ["-", "minus"],
  ["−", "minus"],
]);

/** Cuts a text without leaving half a character behind. */
export function cut(text: string, most: number): string {
  if (text.length <= most) return text;
  const last = text.charCodeAt(most - 1);
  return text.slice(0, last >= 0xd800 && last < 0xdc00 ? most - 1 : most);
}
