import { decodePiece, findXmlEncoding } from "./decode-xml.ts";

/** How much of a file is looked at. */
const LOOK_BYTES = 64 * 1024;

/**
 * Whether the first element of a file has a given name, whatever its prefix. Comments, instructions and a declaration may stand before.
 *
 * @param bytes The file.
 * @param rootName Name of the first element without its prefix.
 */
export function looksLikeXml(bytes: Uint8Array, rootName: string): boolean {
  const found = findXmlEncoding(bytes);
  if (found.kind !== "known") return false;
  const { text } = decodePiece(bytes, found.encoding, { start: found.start, end: found.start + LOOK_BYTES });
  let at = 0;
  for (;;) {
    const open = text.indexOf("<", at);
    if (open < 0 || text.slice(at, open).trim() !== "") return false;
    const end = text.startsWith("<!--", open) ? "-->" : text.startsWith("<?", open) ? "?>" : undefined;
    if (end === undefined) {
      const name = /^<(?:[^\s<>/:]{1,64}:)?([^\s<>/:]{1,64})[\s/>]/u.exec(text.slice(open, open + 160))?.[1];
      return name === rootName;
    }
    const close = text.indexOf(end, open);
    if (close < 0) return false;
    at = close + end.length;
  }
}
