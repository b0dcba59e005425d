/**
 * Decodes `_x000D_` and the like: office files write characters so that XML cannot hold.
 *
 * Source: ISO/IEC 29500-1, type ST_Xstring.
 */
export function decodeXstring(text: string): string {
  if (!text.includes("_x")) return text;
  return text.replace(/_x([0-9A-Fa-f]{4})_/gu, (_, hex: string) => String.fromCharCode(Number.parseInt(hex, 16)));
}

/** Encodes a text for an XML part of a workbook: the signs of XML, characters XML cannot hold, and what looks like such an escape. */
export function encodeXstring(text: string): string {
  return (
    text
      .replace(/_(?=x[0-9A-Fa-f]{4}_)/gu, "_x005F_")
      // Half surrogate pairs cannot be written in any encoding, so they are kept as escapes too. A bare carriage return
      // would be read back as a line feed.
      .replace(/\p{Cc}|\p{Cs}|[\ufffe\uffff]/gu, (character) =>
        /[\t\n]/u.test(character) ? character : escape(character),
      )
      .replaceAll("&", "&amp;")
      .replaceAll("<", "&lt;")
      .replaceAll(">", "&gt;")
      .replaceAll('"', "&quot;")
  );
}

function escape(character: string): string {
  return `_x${character.charCodeAt(0).toString(16).toUpperCase().padStart(4, "0")}_`;
}
