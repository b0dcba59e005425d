import { isDesignator } from "./cell-looks.ts";
import { HEADING_WORDS } from "./heading-words.ts";

/** What a table is called by a text beside it, and the connector that this names. */
export interface BlockName {
  /** The text as written. */
  readonly text: string;
  /** The connector it names: a designator in it, else all of it without words such as "connector" or "6-way". */
  readonly connector: string;
  /** Where the text stands. */
  readonly from: "title" | "sheet" | "file";
}

const list = (text: string): ReadonlySet<string> => new Set(text.split(/[\s,]+/u));
const NOISE: ReadonlySet<string> = new Set([
  ...list(HEADING_WORDS.connector),
  ...list(
    "pinout pin-out pinning table tabelle tableau tabla chart list of the for der die das du de la le pinbelegung belegung klemmenplan klemmplan anschlussplan brochage conexionado",
  ),
]);
/** Names that programs give sheets and files by themselves. */
const GENERIC = /^(?:sheet|tabelle|feuil(?:le)?|hoja|foglio|blad|folha|arkusz|table|standard input|page)\s*\d*$/iu;
/** How many pins it has is no part of the name of a connector. */
const WAYS =
  /[([]?\s*\d{1,3}\s*[- ]?\s*(?:way|pin|pins|pos|position|polig|pol|voies|vias|vie|pole|poles|styk)s?\.?\s*[)\]]?/giu;

/**
 * Finds the connector that a title, the name of a sheet or that of a file names.
 *
 * @param text The text as written; of a file its name.
 * @param from Where it stands.
 * @returns The name; undefined where the text names nothing.
 */
export function blockName(text: string, from: BlockName["from"]): BlockName | undefined {
  const plain = (from === "file" ? text.replace(/^.*[\\/]/u, "").replace(/\.[a-z0-9]{1,5}$/iu, "") : text).trim();
  const bare = plain.replace(WAYS, " ").trim();
  if (bare === "" || GENERIC.test(bare)) return undefined;
  const words = bare.split(from === "file" ? /[\s,;:()[\]_–—-]+/u : /[\s,;:()[\]_–—]+/u).filter((word) => word !== "");
  const designators = words.filter(isDesignator).map((word) => word.replace(/^-/u, ""));
  const [first, second] = designators;
  if (first !== undefined && second === undefined) return { text: plain, connector: first, from };
  const [head = "", ...rest] = bare.split(/\s+/u);
  const isNoise = rest.length > 0 && NOISE.has(head.toLowerCase().replace(/[^\p{L}-]/gu, ""));
  const connector = (isNoise ? rest.join(" ") : bare).replace(
    /\s*\b(?:pin-?out|pin chart|pinbelegung|belegung)\b\s*$/iu,
    "",
  );
  return { text: plain, connector: connector === "" ? bare : connector, from };
}
