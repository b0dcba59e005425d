/** What is renamed in data: its keys, and its words by the keys that lead to them, joined by spaces; lists do not count. */
export interface JsonRenames {
  readonly keys?: Readonly<Record<string, string>>;
  /** By the way to the word in the old keys, such as `states conditions`: what each word becomes. */
  readonly words?: Readonly<Record<string, (word: string) => string>>;
}

/**
 * A copy of parsed JSON with keys and words renamed; everything else stays as it is, the order of keys too.
 *
 * @param value Parsed JSON; it is not changed.
 * @example
 * ```ts
 * import { renameJson, wordsOf } from "ohmward/base";
 * const renames = { keys: { halves: "sides" }, words: { kind: wordsOf({ device: "component" }) } };
 * expect(renameJson({ kind: "device", halves: [{ kind: "device" }] }, renames)).toEqual({ kind: "component", sides: [{ kind: "device" }] });
 * ```
 */
export function renameJson(value: unknown, { keys = {}, words = {} }: JsonRenames): unknown {
  const rename = (part: unknown, way: string): unknown => {
    if (Array.isArray(part)) return part.map((each) => rename(each, way));
    if (typeof part === "string") return words[way]?.(part) ?? part;
    if (typeof part !== "object" || part === null) return part;
    return Object.fromEntries(
      Object.entries(part).map(([key, each]) => [
        Object.hasOwn(keys, key) ? keys[key] : key,
        rename(each, way === "" ? key : `${way} ${key}`),
      ]),
    );
  };
  return rename(value, "");
}

/** What a list of words becomes; a word that is not in it stays. */
export function wordsOf(renamed: Readonly<Record<string, string>>): (word: string) => string {
  return (word) => (Object.hasOwn(renamed, word) ? renamed[word] : undefined) ?? word;
}
